import type { Command } from "commander";
import { BoothkeepError } from "../../src/public/boothkeep.ts";
import { jsonText } from "../../src/public/report.ts";
import type { Context } from "../context.ts";

interface RulesOptions {
  readonly json?: boolean;
}

const HELP = `
  boothkeep rules
  boothkeep rules crossover
  boothkeep rules crossover/no-high-pass`;

export function addRules(program: Command, context: Context): void {
  program
    .command("rules")
    .summary("list the rule book, or explain one rule")
    .description("Lists the rules by which configurations are checked, or explains one with its example.")
    .argument("[code]", "a rule, or a family of rules")
    .option("--json", "print as one JSON document")
    .addHelpText("after", HELP)
    .action((code: string | undefined, options: RulesOptions) => rules(code, options, context));
}

async function rules(
  code: string | undefined,
  { json }: RulesOptions,
  { out, columns, color }: Context,
): Promise<void> {
  const { RULES } = await import("../../src/public/rules.ts");
  const { renderText } = await import("../../src/public/boothkeep.ts");
  const { ruleListReport, ruleReport } = await import("../../src/public/report.ts");
  const chosen = RULES.filter(
    (rule) => code === undefined || rule.code === code || rule.code.startsWith(`${code}/`),
  );
  if (chosen.length === 0) {
    const { nearestName } = await import("../../src/public/model.ts");
    const meant = nearestName(
      code!,
      RULES.map((rule) => rule.code),
    );
    throw new BoothkeepError("usage.wrong", `There is no rule or family '${code}'.`, {
      next: meant === undefined ? "'boothkeep rules' lists the rule book." : `Did you mean '${meant}'?`,
    });
  }
  if (json === true) return out(jsonText(chosen));
  const [only] = chosen;
  const report = chosen.length === 1 ? ruleReport(only!) : ruleListReport(chosen);
  out(renderText(report, { columns, color }));
}
