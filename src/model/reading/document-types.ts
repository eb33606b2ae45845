import type { Audit } from "../generated/audit.ts";
import type { Comparison } from "../generated/comparison.ts";
import type { Configuration } from "../generated/configuration.ts";
import type { Confirmation } from "../generated/confirmation.ts";
import type { DecisionClasses } from "../generated/decision-classes.ts";
import type { Decisions } from "../generated/decisions.ts";
import type { Entry } from "../generated/entry.ts";
import type { FieldMap } from "../generated/field-map.ts";
import type { LogbookHeader } from "../generated/logbook.ts";
import type { LoudspeakerData } from "../generated/loudspeaker-data.ts";
import type { PackManifest } from "../generated/pack-manifest.ts";
import type { PlanDocument } from "../generated/plan.ts";
import type { Proof } from "../generated/proof.ts";
import type { Proposal } from "../generated/proposal.ts";
import type { RuleSettings } from "../generated/rule-settings.ts";
import type { ScreenDescription } from "../generated/screen-description.ts";
import type { SignaturePolicy } from "../generated/signature-policy.ts";
import type { Standard } from "../generated/standard.ts";
import type { StandardDecisions } from "../generated/standard-decisions.ts";
import type { UnitProfile } from "../generated/unit-profile.ts";

/** What a document of each kind is, once it was read. */
export interface DocumentTypes {
  readonly "boothkeep.audit": Audit;
  readonly "boothkeep.comparison": Comparison;
  readonly "boothkeep.configuration": Configuration;
  readonly "boothkeep.confirmation": Confirmation;
  readonly "boothkeep.decision-classes": DecisionClasses;
  readonly "boothkeep.decisions": Decisions;
  readonly "boothkeep.entry": Entry;
  readonly "boothkeep.field-map": FieldMap;
  readonly "boothkeep.logbook": LogbookHeader;
  readonly "boothkeep.loudspeaker-data": LoudspeakerData;
  readonly "boothkeep.pack": PackManifest;
  readonly "boothkeep.plan": PlanDocument;
  readonly "boothkeep.proof": Proof;
  readonly "boothkeep.proposal": Proposal;
  readonly "boothkeep.rule-settings": RuleSettings;
  readonly "boothkeep.screen-description": ScreenDescription;
  readonly "boothkeep.signature-policy": SignaturePolicy;
  readonly "boothkeep.standard": Standard;
  readonly "boothkeep.standard-decisions": StandardDecisions;
  readonly "boothkeep.unit-profile": UnitProfile;
}

/** The `kind` of a document that can be read. */
export type DocumentKind = keyof DocumentTypes;
