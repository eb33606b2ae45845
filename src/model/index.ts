export type * from "./generated/configuration.ts";
export type {
  AutomationAbility,
  ChannelAbility,
  Connector,
  ConnectorKind,
  CrossoverAbility,
  DelayAbility,
  EqualizationAbility,
  FaderAbility,
  FilterAbility,
  GraphicAbility,
  LimiterAbility,
  ListGrid,
  LogGrid,
  NumberGrid,
  OperationAbility,
  OutputAbility,
  PresetAbility,
  SourceAbility,
  StepGrid,
  UnitProfile,
} from "./generated/unit-profile.ts";
export { itemKey, type KeyedItem } from "./item-key.ts";
