import type { ChannelLabel, Format, ScreenDescription } from "../../../model/index.ts";
import { FORMAT_CHANNELS } from "../../../model/index.ts";
import { isSameNetwork } from "../../../rules/index.ts";
import { playableFormats } from "./abilities.ts";
import { type Asking, askChoice, askSeveral, askText, askYesNo } from "./ask.ts";
import type { StandingAnswers } from "./loudspeaker-questions.ts";
import { formatsOfUnit, type ScreenAnswers, type UnitAnswers } from "./unit-questions.ts";

/** Formats that one description can hold. */
const FORMATS_MAX = 6;

/** What the booth plays: the auditorium's own format first. */
export function* askFormats(
  standing: StandingAnswers,
  unit: UnitAnswers,
): Asking<ScreenDescription["formats"]> {
  const { format } = standing;
  const others = playableFormats(channelsOf(standing), formatsOfUnit(unit)).filter(
    (other) => other !== format,
  );
  const most = Math.min(FORMATS_MAX, unit.profile.presets.max) - 1;
  const offered = others.slice(0, most);
  const chosen = yield* askSeveral<Format>({
    id: "formats/others",
    part: "The program",
    words: "Other formats that the booth plays",
    help: "Each gets a preset; channels that the room lacks are folded into their neighbours.",
    choices: offered.map((value) => ({ value, words: value })),
    default: offered.filter((value) => value === "5.1" || value === "stereo"),
  });
  return [format, ...chosen] as unknown as ScreenDescription["formats"];
}

/** The program channels that the loudspeakers make possible. */
function channelsOf({ format, screenChannels, subwoofers }: StandingAnswers): ReadonlySet<ChannelLabel> {
  return new Set<ChannelLabel>([
    ...FORMAT_CHANNELS[format],
    ...(["L", "C", "R"] as const),
    ...(screenChannels === 5 ? (["Lc", "Rc"] as const) : []),
    ...(subwoofers.length > 0 ? (["LFE"] as const) : []),
  ]);
}

type Operation = Pick<
  ScreenDescription,
  "hearingImpaired" | "narration" | "boothMonitor" | "emergencyMute" | "network" | "notes"
>;

/** Feeds, the emergency mute, the network. */
export function* askOperation(
  standing: StandingAnswers,
  { profile }: UnitAnswers,
  { siteId, screenId }: ScreenAnswers,
): Asking<Operation> {
  const part = "The booth";
  let left = standing.outputsLeft;
  function* feed(id: string, words: string, can: boolean): Asking<boolean> {
    if (!can || left === 0) return false;
    const there = yield* askYesNo({
      id,
      part,
      words,
      help: "It takes one output of the unit.",
      default: false,
    });
    if (there) left -= 1;
    return there;
  }
  const { operation, channels } = profile;
  const hearingImpaired = yield* feed(
    "hearingImpaired",
    "A transmitter for the hearing-impaired channel",
    operation.hearingImpaired && channels.labels.includes("HI"),
  );
  const narration = yield* feed(
    "narration",
    "A transmitter for the narration channel",
    operation.narration && channels.labels.includes("VIN"),
  );
  const boothMonitor = yield* feed(
    "boothMonitor",
    "A monitor loudspeaker in the booth",
    operation.boothMonitor && channelsOf(standing).size <= profile.outputs.mixMax,
  );
  const connectorId = yield* askChoice({
    id: "emergencyMute/connectorId",
    part,
    words: "Contact that the fire alarm is wired to",
    help: "Local codes and licensed practice decide what is required; test it with whoever is responsible.",
    choices: profile.connectors
      .filter(({ kind, direction }) => kind === "contact" && direction === "control")
      .map(({ id, group, label }) => ({ value: id, words: `${group}: ${label}` })),
  });
  const activeWhen = yield* askChoice({
    id: "emergencyMute/activeWhen",
    part,
    words: "State of the contact that mutes",
    help: "Closed-loop practice: an open (broken) loop mutes.",
    choices: [
      { value: "open", words: "open: a broken wire mutes too" },
      { value: "closed", words: "closed" },
    ],
    default: "open",
  });
  const notes = yield* askText({
    id: "notes",
    part,
    words: "Remarks",
    help: "They stay with the configuration. An empty line for none.",
    maxLength: 4000,
    optional: true,
    default: "",
  });
  const network = yield* askNetwork(`${siteId}-${screenId}`, operation.networkInterfacesMax > 0);
  return {
    hearingImpaired,
    narration,
    boothMonitor,
    emergencyMute: { connectorId, activeWhen },
    network,
    ...(notes === "" ? {} : { notes }),
  };
}

const HOST_NAME = /^[A-Za-z0-9]([A-Za-z0-9-]{0,61}[A-Za-z0-9])?$/;
const IPV4 = /^((25[0-5]|2[0-4]\d|1\d\d|[1-9]?\d)(\.(?!$)|$)){4}$/;

function* askNetwork(name: string, canConnect: boolean): Asking<ScreenDescription["network"]> {
  const part = "The network";
  const hostname = yield* askText({
    id: "network/hostname",
    part,
    words: "Host name of the unit",
    help: "Letters, digits and '-' (RFC 1123).",
    maxLength: 63,
    form: { pattern: HOST_NAME, words: "Letters, digits and '-' only, neither first nor last a '-'." },
    default: hostNameOf(name),
  });
  if (!canConnect) return { hostname, interfaces: [] };
  const mode = yield* askChoice({
    id: "network/mode",
    part,
    words: "Address of the control network",
    help: "Fixed addresses are easier to find in a dark booth.",
    choices: [
      { value: "automatic", words: "automatic (DHCP)" },
      { value: "fixed", words: "fixed" },
    ],
    default: "automatic",
  });
  const control = { id: "control", label: "Control", purpose: "control" as const };
  if (mode === "automatic") return { hostname, interfaces: [{ ...control, mode: "automatic" }] };
  const form = { pattern: IPV4, words: "Four numbers with dots: 10.20.4.31" };
  const address = yield* askText({
    id: "network/address",
    part,
    words: "Address",
    help: "IPv4.",
    maxLength: 15,
    form,
  });
  const prefix = yield* askChoice({
    id: "network/prefixLength",
    part,
    words: "Network mask",
    help: "As the house network has it.",
    choices: ["24", "25", "26", "16", "8"].map((value) => ({ value, words: `/${value}` })),
    default: "24",
  });
  const gateway = yield* askText({
    id: "network/gateway",
    part,
    words: "Gateway",
    help: "An empty line for none.",
    maxLength: 15,
    optional: true,
    form,
    check: (text) =>
      text !== address && isSameNetwork(text, address, Number(prefix))
        ? undefined
        : `Another machine in the network of ${address}/${prefix}.`,
    default: "",
  });
  return {
    hostname,
    interfaces: [
      {
        ...control,
        mode: "fixed",
        address,
        prefixLength: Number(prefix),
        ...(gateway === "" ? {} : { gateway }),
      },
    ],
  };
}

function hostNameOf(text: string): string {
  const name = text
    .replace(/[^A-Za-z0-9-]+/g, "-")
    .slice(0, 63)
    .replace(/^-+|(?<!-)-+$/g, "");
  return HOST_NAME.test(name) ? name : "sound";
}
