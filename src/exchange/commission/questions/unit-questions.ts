import type { ScreenDescription, UnitProfile } from "../../../model/index.ts";
import {
  delayGridMs,
  gridRange,
  holdsForFirmware,
  type LabelLimits,
  labelCharactersInWords,
  labelFits,
  labelLimits,
  unitLatencyMs,
} from "../../../profile/index.ts";
import { formatsOf, type SourceKind, sourceKinds } from "./abilities.ts";
import { type Asking, askChoice, askNumber, askText } from "./ask.ts";

/** The schema's pattern of keys. */
const KEY = /^[A-Za-z0-9][A-Za-z0-9._-]{0,63}$/;
const KEY_WORDS = "Letters, digits, '.', '_' and '-' only, starting with a letter or digit.";

export type ScreenAnswers = Omit<ScreenDescription["screen"], "videoLatencyMs" | "geometry" | "notes">;

/** What the screen is. */
export function* askScreen(): Asking<ScreenAnswers> {
  const part = "The screen";
  const siteName = yield* askText({
    id: "screen/siteName",
    part,
    words: "Name of the site",
    help: "As people say it: it stands on every paper.",
    maxLength: 64,
  });
  const siteId = yield* askText({
    id: "screen/siteId",
    part,
    words: "Key of the site",
    help: "By this the logbook knows the site; it never changes.",
    maxLength: 64,
    form: { pattern: KEY, words: KEY_WORDS },
    ...keyDefault(siteName),
  });
  const screenName = yield* askText({
    id: "screen/screenName",
    part,
    words: "Name of the screen",
    help: "As people say it: 'Screen 3'.",
    maxLength: 64,
    default: "Screen 1",
  });
  const screenId = yield* askText({
    id: "screen/screenId",
    part,
    words: "Key of the screen",
    help: "By this the logbook knows the screen; unique at its site.",
    maxLength: 64,
    form: { pattern: KEY, words: KEY_WORDS },
    ...keyDefault(screenName),
  });
  const seats = yield* askNumber({
    id: "screen/seats",
    part,
    words: "Seats",
    help: "For the record.",
    unit: "",
    min: 1,
    max: 5000,
    whole: true,
  });
  const temperatureC = yield* askNumber({
    id: "screen/temperatureC",
    part,
    words: "Air temperature with an audience",
    help: "Sound is slower in cold air: delays follow from distances and this.",
    unit: "°C",
    min: -20,
    max: 60,
    default: 21,
  });
  return { siteId, siteName, screenId, screenName, seats, temperatureC };
}

/** A key made of a name: "Harbour Lights" gives "harbour-lights". */
function keyDefault(name: string): { readonly default?: string } {
  const key = name
    .normalize("NFKD")
    .replace(/\p{Mark}/gu, "")
    .toLowerCase()
    .replace(/[^a-z0-9]+/g, "-")
    .replace(/^-+|(?<!-)-+$/g, "")
    .slice(0, 64);
  return KEY.test(key) ? { default: key } : {};
}

export interface UnitAnswers {
  readonly profile: UnitProfile;
  readonly serial: string;
  readonly firmware: string;
  readonly sampleRateHz: number;
  readonly label: string;
  readonly source: ScreenDescription["source"];
  readonly videoLatencyMs: number;
}

const SOURCE_WORDS: Readonly<Record<SourceKind, string>> = {
  aes3: "AES3 digital",
  aes67: "AES67 network",
  "analog-multichannel": "analog multichannel",
};

/** Which unit stands in the booth, and what comes in. */
export function* askUnit(profiles: readonly UnitProfile[], screen: ScreenAnswers): Asking<UnitAnswers> {
  const part = "The unit";
  const profileId = yield* askChoice({
    id: "unit/profileId",
    part,
    words: "Model of the sound processor",
    help: "One of the unit profiles at hand; --profiles names another folder.",
    choices: profiles.map(({ id, label, connectors }) => ({
      value: id,
      words: `${label}, ${connectors.filter(({ direction }) => direction === "output").length} outputs`,
    })),
  });
  const profile = profiles.find(({ id }) => id === profileId)!;
  const serial = yield* askText({
    id: "unit/serial",
    part,
    words: "Serial number",
    help: "As on the unit.",
    maxLength: 64,
  });
  const firmware = yield* askText({
    id: "unit/firmware",
    part,
    words: "Firmware version",
    help: `The profile holds for ${profile.firmwareRange}.`,
    maxLength: 32,
    form: {
      pattern: /^(0|[1-9][0-9]*)\.(0|[1-9][0-9]*)\.(0|[1-9][0-9]*)$/,
      words: "Three numbers with dots: 2.4.1",
    },
    check: (text) =>
      holdsForFirmware(profile, text)
        ? undefined
        : `The profile of ${profile.label} holds for ${profile.firmwareRange} only.`,
    ...firmwareDefault(profile),
  });
  const rate = yield* askChoice({
    id: "unit/sampleRateHz",
    part,
    words: "Sample rate of the signal processing",
    help: "Filters and delays are those of this rate.",
    choices: profile.sampleRatesHz.map((hz) => ({ value: String(hz), words: `${hz / 1000} kHz` })),
    default: String(profile.sampleRatesHz[0]),
  });
  const sampleRateHz = Number(rate);
  const limits = labelLimits(profile.labels);
  const { maxLength } = limits;
  const taken = labelCharactersInWords(limits);
  const label = yield* askText({
    id: "unit/label",
    part,
    words: "Name that the unit shows",
    help: `${profile.label} takes up to ${maxLength} characters: ${taken}.`,
    maxLength,
    check: (text) => (labelFits(text, limits) ? undefined : `${profile.label} takes ${taken}.`),
    ...labelDefault(screen.screenName, limits),
  });
  const kind = yield* askChoice({
    id: "source/kind",
    part,
    words: "How the server is connected",
    help: "Its channels go by position, ISDCF Document 4 (2017).",
    choices: sourceKinds(profile).map((value) => ({ value, words: SOURCE_WORDS[value] })),
  });
  const latencyMs = yield* askNumber({
    id: "source/latencyMs",
    part,
    words: "Delay of the sound between server and unit",
    help: "0 for a cable; a network adds its link offset.",
    unit: "ms",
    min: 0,
    max: 1000,
    default: 0,
  });
  const programMs = gridRange(delayGridMs(profile.presets.delay, sampleRateHz)).max;
  const videoLatencyMs = yield* askNumber({
    id: "screen/videoLatencyMs",
    part,
    words: "Delay of the picture behind the server's output",
    help: "The projector's data sheet says it. The program is delayed by what the sound path does not use up.",
    unit: "ms",
    min: 0,
    max: Math.min(2000, Math.floor(programMs + latencyMs + unitLatencyMs(profile, sampleRateHz))),
    default: 60,
  });
  return {
    profile,
    serial,
    firmware,
    sampleRateHz,
    label,
    source: { kind, latencyMs },
    videoLatencyMs,
  };
}

/** The lowest version that the range names, where it is in the range. */
function firmwareDefault(profile: UnitProfile): { readonly default?: string } {
  const named = /(?<!\d)\d+\.\d+\.\d+/.exec(profile.firmwareRange)?.[0];
  return named !== undefined && holdsForFirmware(profile, named) ? { default: named } : {};
}

function labelDefault(name: string, limits: LabelLimits): { readonly default?: string } {
  const found = [name, name.toUpperCase()]
    .map((text) => [...text].slice(0, limits.maxLength).join("").trim())
    .find((text) => text !== "" && labelFits(text, limits));
  return found === undefined ? {} : { default: found };
}

/** The formats that this unit can be given from this source. */
export function formatsOfUnit({ profile, source }: UnitAnswers) {
  return formatsOf(source.kind, profile);
}
