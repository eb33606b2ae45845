import { BoothkeepError } from "../../../base/errors/index.ts";
import type { Configuration, Question } from "../../../model/index.ts";
import {
  type LabelLimits,
  labelCharactersInWords,
  labelFits,
  labelLimits,
  shortLabel,
} from "../../../profile/index.ts";

import { ask, outcomeOf, type Step, type StepContext, type StepItem, type Verdict } from "../step.ts";
import { place } from "../words.ts";

/** Names that the unit shows: kept where they fit, else a shorter one is proposed; one question for each list. */
export const labels: Step = {
  name: "labels",
  run: (context) => {
    const limits = labelLimits(context.to.labels);
    checkWishes(context, limits);
    const parts = labelLists(context).map((list) => carryList(context, list, limits));
    const now = new Map(parts.flatMap((part) => [...part.labels]));
    return {
      next: relabelled(context.next, now),
      items: parts.flatMap(({ items }) => items),
      questions: parts.flatMap(({ questions }) => questions),
    };
  },
};

interface LabelList {
  readonly name: string;
  readonly things: string;
  readonly entries: readonly { readonly address: string; readonly label: string }[];
}

function labelLists({ next }: StepContext): readonly LabelList[] {
  const list = (
    name: string,
    things: string,
    items: readonly { readonly id: string; readonly label: string }[],
  ): LabelList => ({
    name,
    things,
    entries: items.map(({ id, label }) => ({ address: `${name}/${id}/label`, label })),
  });
  return [
    {
      name: "unit",
      things: "names of the unit",
      entries: [{ address: "unit/label", label: next.unit.label }],
    },
    list("sources", "names of sources", next.sources),
    list("equalizations", "names of EQ sets", next.equalizations),
    list("presets", "names of presets", next.presets),
    list("outputs", "names of outputs", next.outputs),
    list("automation", "names of automation items", next.automation),
    list("network/interfaces", "names of network interfaces", next.network.interfaces),
  ];
}

function checkWishes({ decisions, leaves }: StepContext, limits: LabelLimits): void {
  for (const { address, label } of decisions?.labels ?? []) {
    const known = address.endsWith("/label") && leaves.includes(address);
    if (known && labelFits(label, limits)) continue;
    throw new BoothkeepError(
      "decisions.unfit-answer",
      known
        ? `The new unit cannot show the name '${label}'.`
        : `There is no name at '${address}' in the configuration.`,
      {
        place: { id: address },
        next: known
          ? `Use ${limits.minLength === 0 ? "at most" : `${limits.minLength} to`} ${limits.maxLength} characters: ${labelCharactersInWords(limits)}.`
          : "Name a place such as 'presets/feature/label'.",
      },
    );
  }
}

function carryList(context: StepContext, list: LabelList, limits: LabelLimits) {
  const wishes = new Map((context.decisions?.labels ?? []).map(({ address, label }) => [address, label]));
  const chosen = new Map<string, string>();
  const taken = new Set<string>();
  for (const { address, label } of list.entries) {
    const kept = wishes.get(address) ?? (labelFits(label, limits) ? label : undefined);
    if (kept !== undefined) {
      chosen.set(address, kept);
      taken.add(kept);
    }
  }
  const unfit = list.entries.filter(({ address }) => !chosen.has(address));
  for (const { address, label } of unfit) {
    const proposal = shortLabel(label, limits, taken) ?? label;
    chosen.set(address, proposal);
    taken.add(proposal);
  }
  const verdict = unfit.length === 0 ? undefined : ask(context, questionOf(list, unfit, chosen, limits));
  return {
    labels: chosen,
    items: list.entries.map(({ address, label }) =>
      itemOf(
        { address, label, now: chosen.get(address)! },
        unfit.some((entry) => entry.address === address) ? verdict : undefined,
      ),
    ),
    questions: verdict === undefined ? [] : [verdict.question],
  };
}

function questionOf(
  list: LabelList,
  unfit: LabelList["entries"],
  chosen: ReadonlyMap<string, string>,
  limits: LabelLimits,
): Question {
  return {
    id: `labels/${list.name.split("/").at(-1)}`,
    place: place(list.name, list.things),
    words: `${unfit.length === 1 ? "One of the" : `${unfit.length} of the`} ${list.things} ${unfit.length === 1 ? "does" : "do"} not fit (at most ${limits.maxLength} characters; ${labelCharactersInWords(limits)}). Are the proposals right?`,
    options: [
      {
        id: "as-proposed",
        words: unfit.map(({ address, label }) => `'${label}' becomes '${chosen.get(address)!}'.`).join(" "),
        consequence: "Nothing changes in sound. Other names go under 'labels' in the decisions file.",
        numbers: { labels: unfit.length },
      },
    ],
    recommended: { optionId: "as-proposed", reason: "it says most with the characters that there are." },
    unanswered: { optionId: "as-proposed", words: "The proposals are used." },
  };
}

function itemOf(
  { address, label, now }: { readonly address: string; readonly label: string; readonly now: string },
  verdict: Verdict | undefined,
): StepItem {
  const at = place(address, `Name '${label}'`);
  if (label === now) return { outcome: "kept", place: at, words: `'${label}' as before.`, claims: [address] };
  return {
    outcome: verdict === undefined ? "rounded" : outcomeOf(verdict, "rounded"),
    place: at,
    words: `'${label}' becomes '${now}'.`,
    claims: [address],
    ...(verdict === undefined ? {} : { questionId: verdict.question.id }),
  };
}

function relabelled(configuration: Configuration, now: ReadonlyMap<string, string>): Configuration {
  const list = <T extends { readonly id: string; readonly label: string }>(
    name: string,
    items: readonly T[],
  ) => items.map((item) => ({ ...item, label: now.get(`${name}/${item.id}/label`) ?? item.label }));
  return {
    ...configuration,
    unit: { ...configuration.unit, label: now.get("unit/label") ?? configuration.unit.label },
    sources: list("sources", configuration.sources),
    equalizations: list("equalizations", configuration.equalizations),
    presets: list("presets", configuration.presets),
    outputs: list("outputs", configuration.outputs),
    automation: list("automation", configuration.automation),
    network: {
      ...configuration.network,
      interfaces: list("network/interfaces", configuration.network.interfaces),
    },
  };
}
