import { BoothkeepError, EXIT_CODE } from "../../src/public/boothkeep.ts";
import {
  Census,
  type CensusCounts,
  deriveStandard,
  isInClass,
  type StandardClass,
} from "../../src/public/fleet.ts";
import { jsonText } from "../../src/public/report.ts";
import type { Context } from "../context.ts";
import { writeNew } from "../files.ts";
import { overFleet } from "../fleet/over-fleet.ts";
import type { PlacedScreen } from "../fleet-screens.ts";

export interface DeriveStandardOptions {
  readonly out: string;
  readonly id: string;
  readonly title: string;
  readonly by: string;
  readonly format?: readonly string[];
  readonly profile?: readonly string[];
  readonly site?: readonly string[];
  readonly share: string;
  readonly json?: boolean;
}

export async function derive(
  files: readonly string[],
  options: DeriveStandardOptions,
  context: Context,
): Promise<void> {
  const share = Number(options.share) / 100;
  if (!(share > 0.5 && share <= 1)) {
    throw new BoothkeepError("usage.wrong", `'${options.share}' is no share of more than half.`, {
      next: "Give a number above 50, up to 100.",
    });
  }
  const screens = {
    ...(options.format !== undefined && { formats: options.format }),
    ...(options.profile !== undefined && { profileIds: options.profile }),
    ...(options.site !== undefined && { sites: options.site }),
  } as StandardClass;
  const { out, id, title, by } = options;
  const draft = {
    id,
    title,
    issuedOn: context.now().toISOString().slice(0, 10),
    issuedBy: by,
    screens,
    share,
  };
  const census = new Census();
  const fleet = {
    task: "census" as const,
    setup: { screens },
    label: "Read",
    onPart: (counts: CensusCounts) => census.addCounts(counts),
    onScreen: async ({ configuration, name }: PlacedScreen) => {
      if (isInClass(screens, configuration)) census.add(configuration, name);
    },
  };
  await overFleet(files, fleet, context);
  if (census.screens < 2) {
    throw new BoothkeepError(
      "usage.wrong",
      `${census.screens} screens are too few to derive a standard from.`,
      {
        next: "Name at least two screens of the class.",
      },
    );
  }
  const { standard, outliers } = deriveStandard(census, draft);
  const { readDocument } = await import("../../src/public/model.ts");
  const text = `${jsonText(standard, 2)}\n`;
  readDocument(text, { expect: "boothkeep.standard" });
  writeNew(out, text, context.cwd);
  if (options.json === true) context.out(jsonText({ standard, outliers, written: out }));
  else {
    const { derivedReport } = await import("../../src/public/report.ts");
    const { renderText } = await import("../../src/public/boothkeep.ts");
    const report = derivedReport({ standard, outliers, screens: census.screens });
    context.out(renderText(report, { columns: context.columns, color: context.color }));
    context.out(`\nWritten: ${out}`);
  }
  if (outliers.length > 0) context.exit(EXIT_CODE.found);
}
