import type {
  AutomationItem,
  Cable,
  Configuration,
  Operation,
  PlanPlace,
  Question,
} from "../../model/index.ts";
import { faderGrid, faderLevelDb, faderMarkAt, gridNearest } from "../../profile/index.ts";
import { printDb, printNumber } from "../../units/index.ts";
import { assignCables, type LooseCable, type PlacedCable } from "../cables/assign-cables.ts";
import { plugPlace, plugWords, socketsOf } from "../cables/socket.ts";
import { ask, outcomeOf, type Step, type StepContext, type StepItem } from "../step.ts";
import { place } from "../words.ts";

/** How the booth works with the unit: fader, start, emergency mute, paging, feeds; and all control terminals. */
export const operation: Step = {
  name: "operation",
  run: (context) => {
    const terminals = assignTerminals(context);
    const parts = [
      fader({ ...context, next: terminals.next }),
      startPreset,
      emergencyMute,
      uses("nonSync", "Music between shows"),
      uses("paging", "Paging microphone"),
      feed("boothMonitor", "Booth monitor"),
      feed("hearingImpaired", "Hearing-impaired feed"),
      feed("narration", "Narration feed"),
    ];
    const items: StepItem[] = [];
    const questions: Question[] = [];
    let next = terminals.next;
    for (const part of parts) {
      const done = part({ ...context, next });
      next = done.next;
      items.push(...done.items);
      questions.push(...done.questions);
    }
    return { next, items, questions, cables: terminals.cables };
  },
};

interface Part {
  readonly next: Configuration;
  readonly items: readonly StepItem[];
  readonly questions: readonly Question[];
}

/** No connector has this id: whatever still names it found no terminal and is asked about or left out. */
const NO_TERMINAL = "";

const NOTHING = { items: [], questions: [] } as const;

/** Cables on control terminals: the emergency mute first, then automation. */
function assignTerminals({ next, from, to, decisions }: StepContext) {
  const users = [
    ...(next.operation.emergencyMute === undefined
      ? []
      : [
          {
            address: "operation/emergencyMute",
            words: "Emergency mute",
            connectorId: next.operation.emergencyMute.connectorId,
          },
        ]),
    ...next.automation.flatMap((item) =>
      "connectorId" in item.trigger
        ? [
            {
              address: `automation/${item.id}`,
              words: `Automation '${item.label}'`,
              connectorId: item.trigger.connectorId,
            },
          ]
        : [],
    ),
  ];
  const cables = socketsOf(from).flatMap((socket): LooseCable[] => {
    const mine = users.filter(({ connectorId }) => socket.connectors.some(({ id }) => id === connectorId));
    if (mine.length === 0) return [];
    return [
      {
        items: mine.map(({ address }) => address),
        socket,
        lineChannels: [0],
        required: mine.some(({ address }) => address === "operation/emergencyMute"),
      },
    ];
  });
  const placed = assignCables({ cables, sockets: socketsOf(to), wishes: decisions?.connectors ?? [] });
  const found = new Map(
    placed.flatMap((item) =>
      item.cable.items.map((address) => [address, item.socket?.connectors[0]?.id] as const),
    ),
  );
  const mute = next.operation.emergencyMute;
  const muteConnector = found.get("operation/emergencyMute");
  const changed: Configuration = {
    ...next,
    operation:
      mute === undefined
        ? next.operation
        : { ...next.operation, emergencyMute: { ...mute, connectorId: muteConnector ?? NO_TERMINAL } },
    automation: next.automation.map((item) => {
      const connectorId = found.get(`automation/${item.id}`);
      return "connectorId" in item.trigger
        ? { ...item, trigger: { ...item.trigger, connectorId: connectorId ?? NO_TERMINAL } }
        : item;
    }),
  };
  const words = new Map(users.map((user) => [user.address, user.words]));
  return {
    next: changed,
    cables: placed.map((item) => terminalCable(item, words)),
  };
}

function terminalCable({ cable, socket, moved }: PlacedCable, words: ReadonlyMap<string, string>): Cable {
  return {
    id: `control/${cable.socket.id}`,
    direction: "control",
    kind: cable.socket.kind,
    words: cable.items.map((address) => words.get(address)!).join("; "),
    items: [...cable.items],
    from: cable.socket.connectors.map(plugPlace),
    to: (socket?.connectors ?? []).map(plugPlace),
    moved,
  };
}

/** A mark on the new scale for a mark on the old one: the same level in dB, on the new scale's step. */
export function convertMark({ from, to }: Pick<StepContext, "from" | "to">, mark: number) {
  const grid = faderGrid(to.fader);
  const levelDb = faderLevelDb(from.fader, mark);
  const same = JSON.stringify(from.fader) === JSON.stringify(to.fader);
  const now = same ? mark : gridNearest(grid, faderMarkAt(to.fader, levelDb));
  return { mark: now, levelDb, errorDb: faderLevelDb(to.fader, now) - levelDb };
}

/** Errors below this are no change of level: far below what anybody hears. */
const SAME_LEVEL_DB = 0.05;

export function markItem(at: PlanPlace, before: number, converted: ReturnType<typeof convertMark>): StepItem {
  const { mark, levelDb, errorDb } = converted;
  if (mark === before && Math.abs(errorDb) < SAME_LEVEL_DB) {
    return { outcome: "kept", place: at, words: `Mark ${before} as before.`, claims: [at.address] };
  }
  return {
    outcome: Math.abs(errorDb) < SAME_LEVEL_DB ? "restaged" : "rounded",
    place: at,
    words: `Mark ${printNumber(before, 1)} (${printDb(levelDb)}) becomes mark ${printNumber(mark, 1)} on the new scale (${printDb(levelDb + errorDb)}).`,
    numbers: { fromMark: before, toMark: mark, errorDb: Number(errorDb.toFixed(3)) },
    claims: [at.address],
  };
}

function fader(context: StepContext): (context: StepContext) => Part {
  return ({ next }) => {
    const start = convertMark(context, next.operation.faderMark);
    const items: StepItem[] = [
      markItem(place("operation/faderMark", "Fader at start-up"), next.operation.faderMark, start),
    ];
    const presets = next.presets.map((preset) => {
      if (preset.faderMark === undefined) return preset;
      const converted = convertMark(context, preset.faderMark);
      const at = place(`presets/${preset.id}/faderMark`, `Preset '${preset.label}', fader`);
      items.push(markItem(at, preset.faderMark, converted));
      return { ...preset, faderMark: converted.mark };
    });
    return {
      next: { ...next, presets, operation: { ...next.operation, faderMark: start.mark } },
      items,
      questions: [],
    };
  };
}

function without<K extends keyof Operation>(operation: Operation, key: K): Omit<Operation, K> {
  const { [key]: _gone, ...rest } = operation;
  return rest;
}

function startPreset({ next }: StepContext): Part {
  const { startPresetId } = next.operation;
  if (startPresetId === undefined) return { next, ...NOTHING };
  const there = next.presets.some(({ id }) => id === startPresetId);
  const item: StepItem = {
    outcome: there ? "kept" : "lost",
    place: place("operation/startPresetId", "Preset at start-up"),
    words: there
      ? "The unit starts with the same preset."
      : "The preset at start-up is left out: the unit starts as its maker decided.",
    claims: ["operation/startPresetId"],
  };
  return {
    next: there ? next : { ...next, operation: without(next.operation, "startPresetId") },
    items: [item],
    questions: [],
  };
}

/** On which terminal the wires of something are now. */
export function terminalItem(
  { old, from, to }: Pick<StepContext, "old" | "from" | "to">,
  at: PlanPlace,
  connectorId: string,
): StepItem {
  const oldId =
    at.address === "operation/emergencyMute"
      ? old.operation.emergencyMute?.connectorId
      : terminalOf(old.automation.find(({ id }) => at.address === `automation/${id}`));
  const was = from.connectors.find(({ id }) => id === oldId)!;
  const now = to.connectors.find(({ id }) => id === connectorId)!;
  return {
    outcome: was.id === now.id ? "kept" : "moved",
    place: at,
    words: `Its wires were on ${plugWords(was)} and are on ${plugWords(now)}.`,
    claims: [`${at.address}/connectorId`, `${at.address}/trigger/connectorId`],
  };
}

function terminalOf(item: AutomationItem | undefined): string | undefined {
  return item !== undefined && "connectorId" in item.trigger ? item.trigger.connectorId : undefined;
}

/** The fire alarm's contact: kept, or asked about; nothing is chosen in its stead. */
function emergencyMute(context: StepContext): Part {
  const { next, to } = context;
  const mute = next.operation.emergencyMute;
  if (mute === undefined) return { next, ...NOTHING };
  const at = place("operation/emergencyMute", "Emergency mute");
  const values = ["enabled", "activeWhen", "release"].map((name) => `${at.address}/${name}`);
  const wired = mute.connectorId !== NO_TERMINAL;
  if (to.operation.emergencyMute && wired) {
    const item: StepItem = {
      outcome: "kept",
      place: at,
      words: "The emergency mute is set as before. Test it with whoever is responsible for life safety.",
      claims: values,
    };
    return { next, items: [item, terminalItem(context, at, mute.connectorId)], questions: [] };
  }
  const verdict = ask(context, {
    id: at.address,
    place: at,
    words:
      "The new unit has no contact for the emergency (fire alarm) mute. What silences the auditorium in an alarm?",
    options: [
      {
        id: "outside-the-unit",
        words: "Equipment outside of the unit, planned and tested by whoever is responsible for life safety.",
        consequence:
          "The unit itself no longer mutes in an alarm. Local codes and licensed practice decide what is required.",
        numbers: {},
        weakensProtection: true,
      },
      {
        id: "not-this-unit",
        words: "This unit must not go into service here.",
        consequence: "The plan stays as a study.",
        numbers: {},
      },
    ],
    unanswered: { optionId: "not-this-unit", words: "The plan is not to be carried out." },
  });
  const item: StepItem = {
    outcome: outcomeOf(verdict, "lost"),
    place: at,
    words: `The new unit has no emergency mute contact. ${verdict.option.words}`,
    claimsRest: [at.address],
    questionId: verdict.question.id,
  };
  return {
    next: { ...next, operation: without(next.operation, "emergencyMute") },
    items: [item],
    questions: [verdict.question],
  };
}

/** Music and paging need their source and preset; paging needs the ability too. */
function uses(key: "nonSync" | "paging", words: string): (context: StepContext) => Part {
  return (context) => {
    const { next, to } = context;
    const value = next.operation[key];
    if (value === undefined) return { next, ...NOTHING };
    const at = place(`operation/${key}`, words);
    const there =
      next.presets.some(({ id }) => id === value.presetId) &&
      next.sources.some(({ id }) => id === value.sourceId);
    if (there && (key === "nonSync" || to.operation.paging)) {
      const item: StepItem = {
        outcome: "kept",
        place: at,
        words: `${words}: as before.`,
        claims: [at.address],
      };
      return { next, items: [item], questions: [] };
    }
    const verdict = ask(context, {
      id: at.address,
      place: at,
      words: there
        ? `The new unit has no function for ${words.toLowerCase()}. Is that accepted?`
        : `The source or preset of '${words}' is left out. Is that accepted?`,
      options: [
        {
          id: "leave-out",
          words: `${words} is left out.`,
          consequence:
            key === "paging"
              ? "Announcements need other equipment; if they are part of the evacuation, local codes decide."
              : "There is no music between shows from this unit.",
          numbers: {},
          ...(key === "paging" ? { weakensProtection: true } : {}),
        },
        {
          id: "not-this-unit",
          words: "That is not acceptable.",
          consequence: "The plan stays as a study.",
          numbers: {},
        },
      ],
      unanswered: { optionId: "not-this-unit", words: "The plan is not to be carried out." },
    });
    return lostPart(next, key, at, verdict);
  };
}

/** Booth monitor, hearing-impaired and narration feed: they need their output. */
function feed(
  key: "boothMonitor" | "hearingImpaired" | "narration",
  words: string,
): (context: StepContext) => Part {
  return (context) => {
    const { next, to } = context;
    const value = next.operation[key];
    if (value === undefined) return { next, ...NOTHING };
    const at = place(`operation/${key}`, words);
    const hasOutput = next.outputs.some(({ id }) => id === value.outputId);
    if (hasOutput && to.operation[key]) {
      const item: StepItem = {
        outcome: "kept",
        place: at,
        words: `${words}: as before.`,
        claims: [at.address],
      };
      return { next, items: [item], questions: [] };
    }
    if (!hasOutput) {
      const item: StepItem = {
        outcome: "lost",
        place: at,
        words: `${words}: its output is left out, and its settings with it.`,
        claims: [at.address],
      };
      return {
        next: { ...next, operation: without(next.operation, key) },
        items: [item],
        questions: [],
      };
    }
    const verdict = ask(context, {
      id: at.address,
      place: at,
      words: `The new unit has no function of its own for: ${words}. What becomes of it?`,
      options: [
        {
          id: "plain-output",
          words: "Its output stays as an ordinary output.",
          consequence: "The feed plays; its own level and rules are lost.",
          numbers: { levelDb: value.levelDb },
        },
      ],
      recommended: { optionId: "plain-output", reason: "the feed keeps playing." },
      unanswered: { optionId: "plain-output", words: "The output stays as an ordinary output." },
    });
    return lostPart(next, key, at, verdict);
  };
}

function lostPart(
  next: Configuration,
  key: "nonSync" | "paging" | "boothMonitor" | "hearingImpaired" | "narration",
  at: PlanPlace,
  verdict: ReturnType<typeof ask>,
): Part {
  const item: StepItem = {
    outcome: outcomeOf(verdict, "lost"),
    place: at,
    words: verdict.option.words,
    claims: [at.address],
    questionId: verdict.question.id,
  };
  return {
    next: { ...next, operation: without(next.operation, key) },
    items: [item],
    questions: [verdict.question],
  };
}
