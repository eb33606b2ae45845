import type { PrintedImprint } from "../../../logbook/imprint/index.ts";
import type { Configuration, UnitProfile } from "../../../model/index.ts";
import { printHzToKeyIn } from "../../../words/index.ts";
import { CAUTION_STEPS, cautionBlock } from "../../cautions.ts";
import type { Block, Columns, ReportDocument } from "../../document.ts";
import { imprintBlocks, imprintFooter, warningBlocks } from "../imprint-block.ts";
import type { SheetContext } from "./context.ts";
import { equalizationGroups } from "./equalizers.ts";
import { channelTable, sourceGroups } from "./inputs.ts";
import { sheetNumbers } from "./numbers.ts";
import { automationBlocks, networkBlocks, operationList } from "./operation.ts";
import { outputGroups, spareBlocks } from "./outputs.ts";
import { presetGroups } from "./presets.ts";
import { entryWords } from "./words.ts";

/** The unit, where the settings came from, and the code on the sheet. */
export interface EntrySheetOptions {
  /** The unit on which the settings are entered: it says in which numbers it wants them. */
  readonly profile: UnitProfile;
  /** Names and values that say where the configuration comes from. */
  readonly origin?: readonly (readonly [name: string, value: string])[];
  /** Code by which the paper is matched with the settings. */
  readonly imprint?: PrintedImprint;
  /** What has to be read before the paper is used, such as a read-back that differs; every page points to it. */
  readonly warnings?: readonly string[];
}

/**
 * What to key in by hand when the unit reads no file, in the order of the signal flow, with a box for each setting. Every
 * setting stands at one box and no other; numbers stand as the unit shows them: delays in its own count, the fader on its
 * own scale.
 */
export function entrySheet(document: Configuration, options: EntrySheetOptions): ReportDocument {
  // Numbers are known by what holds them, so nothing may be shared; a document read from a file never is.
  const configuration = JSON.parse(JSON.stringify(document)) as Configuration;
  const { profile, origin = [], imprint } = options;
  const { screen, unit } = configuration;
  const context: SheetContext = {
    configuration,
    profile,
    words: entryWords(configuration, profile),
    numbers: sheetNumbers(configuration, profile),
  };
  return {
    title: `Entry sheet: ${screen.siteName}, ${screen.screenName}`,
    subtitle: `${profile.label}, serial number ${unit.serial}, firmware ${unit.firmware}`,
    ...imprintFooter(imprint, options),
    blocks: [
      ...warningBlocks(options.warnings),
      cautionBlock(),
      ...offStepBlocks(context),
      ...(origin.length === 0 ? [] : [{ kind: "facts" as const, pairs: origin }]),
      ...imprintBlocks(imprint),
      {
        kind: "list",
        marker: "box",
        items: [
          { text: CAUTION_STEPS.amplifiersOff },
          { text: "Mute all outputs in the unit until the last page is ticked." },
          { lead: "Sample rate", text: printHzToKeyIn(unit.sampleRateHz) },
          { lead: "Name of the unit", text: unit.label },
        ],
      },
      ...part("1. Sources", [flowing(sourceGroups(context))]),
      ...part("2. Program channels", [channelTable(context)]),
      ...part("3. EQ sets", [flowing(equalizationGroups(context))]),
      ...part("4. Presets", [flowing(presetGroups(context))]),
      ...part("5. Outputs", [flowing(outputGroups(context)), ...spareBlocks(context)]),
      ...part("6. Operation", [operationList(context)]),
      ...part("7. Automation", automationBlocks(context)),
      ...part("8. Network", networkBlocks(context)),
      { kind: "signatures", roles: ["Entered by", "Checked by"] },
    ],
  };
}

function flowing(groups: readonly (readonly Block[])[]): Columns {
  return { kind: "columns", groups };
}

function part(text: string, blocks: readonly Block[]): readonly Block[] {
  return [{ kind: "heading", level: 2, text }, ...blocks];
}

function offStepBlocks({ numbers: { offSteps }, profile }: SheetContext): readonly Block[] {
  if (offSteps === 0) return [];
  const count = offSteps === 1 ? "1 number is no step" : `${offSteps} numbers are no steps`;
  return [
    {
      kind: "paragraph",
      weight: "lead",
      text: `${count} of ${profile.label} and cannot be keyed in; each stands with '!'. 'boothkeep validate' names them; a crossover or a limiter is never rounded by guess.`,
    },
  ];
}
