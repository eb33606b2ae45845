export {
  FIELDS,
  type Field,
  type FieldOwner,
  type FieldUnit,
  fieldAt,
  fieldsUnder,
  LIST_KEYS,
  type ListKey,
} from "./fields.ts";
export type * from "./generated/configuration.ts";
export type {
  ConnectorWish,
  DecisionAnswer,
  Decisions,
  LabelWish,
} from "./generated/decisions.ts";
export type {
  Answer,
  Cable,
  Counts,
  EqFitReport,
  Outcome,
  PlanDocument,
  PlanItem,
  PlanPlace,
  PlugPlace,
  Question,
  QuestionOption,
  Side,
  Staging,
  StepName,
} from "./generated/plan.ts";
export type { Attachment, Entry, Reason, RecordedUnit } from "./generated/entry.ts";
export type {
  EditedConfiguration,
  EntrySignature,
  LogbookHeader,
  Withdrawal,
} from "./generated/logbook.ts";
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
export {
  DOCUMENT_KINDS,
  type InspectedDocument,
  inspectDocument,
  kindWords,
  MAX_DEPTH,
  MAX_DOCUMENT_BYTES,
  nearestName,
  type ReadDocument,
  type ReadOptions,
  type ReadWarning,
  readConfiguration,
  readDocument,
  readJson,
  readProfile,
  SHAPE_FAULTS,
  type Shape,
  type ShapeFault,
  type ShapeProblem,
  type TextPosition,
  valuePositions,
} from "./reading/index.ts";
export { UPGRADES } from "./upgrades/index.ts";
export type { JsonObject, Upgrade } from "./upgrades/upgrade.ts";
