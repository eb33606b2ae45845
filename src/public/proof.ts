/** What a proof consists of. */
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
  ProofMethod,
  ProofPart,
  ProofParts,
  ProofTolerances,
  ProvedUnit,
  SettingDifference,
  SettingProof,
  SourceChannelName,
  SumProof,
} from "../model/index.ts";
export { DEFAULT_TOLERANCES, type DecidedSetting, type GivenUp, type ProofUnit } from "../proof/index.ts";
