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
export {
  type Carried,
  CHANNELS,
  type ChannelFacts,
  type ChannelRole,
  carriedAtPosition,
  carriedBy,
  checkGroup,
  DATA_SIGNALS,
  FORMAT_CHANNELS,
  formatOf,
  type GroupCheck,
  isForAuditorium,
  positionOf,
} from "./formats.ts";
export type {
  Audit,
  AuditCheck,
  AuditCheckName,
  AuditCount,
  AuditedScreen,
  AuditLayout,
  AuditSince,
  AuditState,
} from "./generated/audit.ts";
export type {
  ChangeEffect,
  ComparedDocument,
  ComparedPlace,
  Comparison,
  ComparisonCounts,
  ComparisonCurve,
  ComparisonFinding,
  ComparisonTolerances,
  ComparisonWayCurve,
  CrossingEffect,
  ProtectionEffect,
  RawChange,
  ReachEffect,
  RenamedItem,
  ReorderedList,
  ResponseEffect,
  StandardComparison,
} from "./generated/comparison.ts";
export type * from "./generated/configuration.ts";
export type {
  Confirmation,
  ConfirmationCounts,
  ConfirmedDifference,
  ConfirmedDocument,
} from "./generated/confirmation.ts";
export type { DecisionClass, DecisionClasses } from "./generated/decision-classes.ts";
export type {
  ConnectorWish,
  DecisionAnswer,
  Decisions,
  LabelWish,
} from "./generated/decisions.ts";
export type { Attachment, Entry, Reason, RecordedUnit } from "./generated/entry.ts";
export type {
  ChoiceConversion,
  Conversion,
  ExportSource,
  FieldMap,
  JoinRule,
  KeyValueSource,
  LinePattern,
  LinesSource,
  ListRule,
  MapRule,
  NumbersRule,
  RowMatch,
  RuleCondition,
  TableSource,
  ValueParts,
  ValueRule,
  XmlSource,
} from "./generated/field-map.ts";
export type {
  EditedConfiguration,
  EntrySignature,
  LogbookHeader,
  Withdrawal,
} from "./generated/logbook.ts";
export type {
  LoudspeakerData,
  LoudspeakerModel,
  ModelWay,
  RecommendedFilter,
} from "./generated/loudspeaker-data.ts";
export type { PackedFile, PackManifest } from "./generated/pack-manifest.ts";
export type {
  Answer,
  Cable,
  Counts,
  DecidedValues,
  EqFitReport,
  Fold,
  Join,
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
export type {
  CrossoverProof,
  FeedProof,
  OverallVerdict,
  PathCounts,
  PathDeviation,
  PathGroup,
  PathReason,
  PathSet,
  PathVerdict,
  PresetProof,
  Proof,
  ProofMethod,
  ProofPart,
  ProofParts,
  ProofTolerances,
  ProvedUnit,
  SettingDifference,
  SettingProof,
  SourceChannelName,
  SumProof,
} from "./generated/proof.ts";
export type {
  FittedItem,
  FittingOption,
  FittingQuestion,
  Proposal,
  ProposalFinding,
  ProposedPathGroup,
  ProposedScreen,
  ProposedSound,
  ProposedStep,
} from "./generated/proposal.ts";
export type { RuleSetting, RuleSettings } from "./generated/rule-settings.ts";
export type { ScreenDescription } from "./generated/screen-description.ts";
export type { SignaturePolicy } from "./generated/signature-policy.ts";
export type {
  AtLeastLine,
  ExactlyLine,
  HouseFaderMark,
  LeftLine,
  Standard,
  StandardClass,
  StandardItem,
  StandardLine,
  TheseOnlyLine,
  WithinLine,
} from "./generated/standard.ts";
export type { StandardAnswer, StandardDecisions } from "./generated/standard-decisions.ts";
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
  LabelAbility,
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
  channelName,
  type DocumentPath,
  keyPath,
  outputName,
  placeOf,
  sourceChannelName,
} from "./place-words.ts";
export { printValue } from "./print-value.ts";
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
export { triggerKey } from "./trigger-key.ts";
export { UPGRADES } from "./upgrades/index.ts";
export type { JsonObject, Upgrade } from "./upgrades/upgrade.ts";
