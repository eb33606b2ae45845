import type { FindingKind } from "../base/findings/index.ts";

/** The unit of a number. "" for texts, choices, yes and no, and numbers without one. */
export type FieldUnit =
  | ""
  | "dB"
  | "dBFS"
  | "dB SPL"
  | "Hz"
  | "ms"
  | "m"
  | "°C"
  | "W"
  | "Ω"
  | "seats"
  | "bits"
  | "mark";

/**
 * Whose a value is. `document`: about the file; `screen`: a fact of the auditorium; `unit`: tied to this unit and its
 * cabling; `alignment`: found by measuring this room, so a house standard leaves it alone; `house`: how shows are
 * presented, what a house standard may hold.
 */
export type FieldOwner = "document" | "screen" | "unit" | "alignment" | "house";

/** One leaf of the configuration schema. */
export interface Field {
  /** Members joined by dots, "[]" for each item of a list: "outputs[].highPass.frequencyHz". */
  readonly path: string;
  /** What it is called inside its item: "high-pass corner". */
  readonly label: string;
  readonly unit: FieldUnit;
  /** Sort of finding that a change of it is, where nothing more is known. */
  readonly kind: FindingKind;
  readonly owner: FieldOwner;
  /** The list whose keys it takes: "channels", "loudspeakers[].ways". */
  readonly refersTo?: string;
}

type Line = readonly [
  path: string,
  label: string,
  unit: FieldUnit,
  kind: FindingKind,
  owner: FieldOwner,
  refersTo?: string,
];

/** The filters of one list: the same members wherever filters stand. */
function filterLines(list: string, kind: FindingKind): readonly Line[] {
  return [
    [`${list}[].id`, "filter", "", "record", "alignment"],
    [`${list}[].kind`, "filter kind", "", kind, "alignment"],
    [`${list}[].enabled`, "filter in use", "", kind, "alignment"],
    [`${list}[].frequencyHz`, "filter frequency", "Hz", kind, "alignment"],
    [`${list}[].gainDb`, "filter gain", "dB", kind, "alignment"],
    [`${list}[].q`, "filter Q", "", kind, "alignment"],
    [`${list}[].slope`, "shelf slope", "", kind, "alignment"],
    [`${list}[].order`, "filter order", "", kind, "alignment"],
  ];
}

function crossoverLines(member: string, label: string): readonly Line[] {
  return [
    [`${member}.family`, `${label} family`, "", "protection", "alignment"],
    [`${member}.order`, `${label} order`, "", "protection", "alignment"],
    [`${member}.frequencyHz`, `${label} corner`, "Hz", "protection", "alignment"],
    [`${member}.normalization`, `${label} normalization`, "", "protection", "alignment"],
  ];
}

/** In the order of the signal flow, which is also the order in which a person enters settings. */
const LINES: readonly Line[] = [
  ["$schema", "schema location", "", "record", "document"],
  ["kind", "document kind", "", "record", "document"],
  ["schemaVersion", "schema version", "", "record", "document"],
  ["screen.siteId", "site key", "", "record", "screen"],
  ["screen.siteName", "site name", "", "record", "screen"],
  ["screen.screenId", "screen key", "", "record", "screen"],
  ["screen.screenName", "screen name", "", "record", "screen"],
  ["screen.format", "format of the auditorium", "", "record", "screen"],
  ["screen.seats", "seats", "seats", "record", "screen"],
  ["screen.temperatureC", "air temperature", "°C", "record", "screen"],
  ["screen.videoLatencyMs", "picture latency", "ms", "sound", "screen"],
  ["screen.geometry.lengthM", "length of the room", "m", "record", "screen"],
  ["screen.geometry.widthM", "width of the room", "m", "record", "screen"],
  ["screen.geometry.heightM", "height of the room", "m", "record", "screen"],
  ["screen.notes", "remarks on the auditorium", "", "record", "screen"],
  ["unit.profileId", "unit profile", "", "operation", "unit"],
  ["unit.profileRevision", "profile revision", "", "record", "unit"],
  ["unit.serial", "serial number", "", "record", "unit"],
  ["unit.firmware", "firmware", "", "operation", "unit"],
  ["unit.sampleRateHz", "sample rate", "Hz", "sound", "unit"],
  ["unit.label", "name of the unit", "", "record", "unit"],
  ["sources[].id", "source", "", "record", "house"],
  ["sources[].label", "name of the source", "", "record", "house"],
  ["sources[].kind", "interface", "", "routing", "unit"],
  ["sources[].assignment", "channel assignment", "", "routing", "house"],
  ["sources[].latencyMs", "source latency", "ms", "sound", "screen"],
  ["sources[].channels[].id", "source channel", "", "record", "house"],
  ["sources[].channels[].position", "position", "", "routing", "house"],
  ["sources[].channels[].connectorId", "input connector", "", "routing", "unit"],
  ["sources[].channels[].carries", "content", "", "routing", "house"],
  ["sources[].channels[].gainDb", "input trim", "dB", "sound", "alignment"],
  ["channels[].id", "program channel", "", "record", "house"],
  ["channels[].label", "channel label", "", "routing", "house"],
  ["channels[].levelDb", "channel level", "dB", "sound", "alignment"],
  ["channels[].delayMs", "channel delay", "ms", "sound", "alignment"],
  ["channels[].mute", "channel mute", "", "sound", "alignment"],
  ["equalizations[].id", "EQ set", "", "record", "alignment"],
  ["equalizations[].label", "name of the EQ set", "", "record", "alignment"],
  ["equalizations[].channels[].channelId", "program channel", "", "sound", "alignment", "channels"],
  ["equalizations[].channels[].graphic.layout", "graphic EQ bands", "", "sound", "alignment"],
  ["equalizations[].channels[].graphic.gainsDb[]", "graphic EQ gain", "dB", "sound", "alignment"],
  ["equalizations[].channels[].graphic.enabled", "graphic EQ in use", "", "sound", "alignment"],
  ...filterLines("equalizations[].channels[].parametric", "sound"),
  ["presets[].id", "preset", "", "record", "house"],
  ["presets[].slot", "slot", "", "operation", "house"],
  ["presets[].label", "name of the preset", "", "record", "house"],
  ["presets[].sourceId", "source", "", "routing", "house", "sources"],
  ["presets[].format", "format", "", "routing", "house"],
  ["presets[].equalizationId", "EQ set", "", "sound", "house", "equalizations"],
  ["presets[].levelDb", "preset level", "dB", "sound", "house"],
  ["presets[].delayMs", "program delay", "ms", "sound", "house"],
  ["presets[].faderMark", "fader at recall", "mark", "operation", "house"],
  ["presets[].routing[].id", "crossing", "", "record", "house"],
  ["presets[].routing[].sourceChannelId", "source channel", "", "routing", "house", "sources[].channels"],
  ["presets[].routing[].channelId", "program channel", "", "routing", "house", "channels"],
  ["presets[].routing[].gainDb", "routing gain", "dB", "sound", "house"],
  ["presets[].reason", "reason", "", "record", "house"],
  ["loudspeakers[].id", "loudspeaker", "", "record", "screen"],
  ["loudspeakers[].label", "name of the loudspeaker", "", "record", "screen"],
  ["loudspeakers[].placement", "placement", "", "record", "screen"],
  ["loudspeakers[].drive", "drive", "", "record", "screen"],
  ["loudspeakers[].boxes", "cabinets", "", "record", "screen"],
  ["loudspeakers[].distanceM", "distance", "m", "record", "screen"],
  ["loudspeakers[].ways[].id", "way", "", "record", "screen"],
  ["loudspeakers[].ways[].band", "band", "", "record", "screen"],
  ["loudspeakers[].ways[].safeHighPassHz", "safe high-pass corner", "Hz", "protection", "screen"],
  ["loudspeakers[].ways[].safeHighPassOrder", "safe high-pass order", "", "protection", "screen"],
  ["loudspeakers[].ways[].ratedPowerW", "rated power", "W", "record", "screen"],
  ["loudspeakers[].ways[].impedanceOhm", "impedance", "Ω", "record", "screen"],
  ["loudspeakers[].ways[].sensitivityDb", "sensitivity", "dB SPL", "record", "screen"],
  ["outputs[].id", "output", "", "record", "unit"],
  ["outputs[].label", "name of the output", "", "record", "unit"],
  ["outputs[].connectorId", "output connector", "", "routing", "unit"],
  ["outputs[].feeds.kind", "feed", "", "routing", "unit"],
  ["outputs[].feeds.loudspeakerId", "loudspeaker", "", "routing", "unit", "loudspeakers"],
  ["outputs[].feeds.wayId", "way", "", "routing", "unit", "loudspeakers[].ways"],
  ["outputs[].mix[].channelId", "program channel", "", "routing", "alignment", "channels"],
  ["outputs[].mix[].gainDb", "mix gain", "dB", "sound", "alignment"],
  ...crossoverLines("outputs[].highPass", "high-pass"),
  ...crossoverLines("outputs[].lowPass", "low-pass"),
  ...filterLines("outputs[].filters", "sound"),
  ["outputs[].fir.taps[]", "FIR coefficient", "", "sound", "alignment"],
  ["outputs[].fir.enabled", "FIR in use", "", "sound", "alignment"],
  ["outputs[].gainDb", "output gain", "dB", "sound", "alignment"],
  ["outputs[].delayMs", "output delay", "ms", "sound", "alignment"],
  ["outputs[].polarity", "polarity", "", "sound", "alignment"],
  ["outputs[].limiter.enabled", "limiter in use", "", "protection", "alignment"],
  ["outputs[].limiter.thresholdDbfs", "limiter threshold", "dBFS", "protection", "alignment"],
  ["outputs[].limiter.attackMs", "limiter attack", "ms", "protection", "alignment"],
  ["outputs[].limiter.releaseMs", "limiter release", "ms", "protection", "alignment"],
  ["outputs[].mute", "output mute", "", "sound", "alignment"],
  ["operation.faderMark", "fader at start-up", "mark", "operation", "house"],
  ["operation.startPresetId", "preset at start-up", "", "operation", "house", "presets"],
  ["operation.emergencyMute.enabled", "emergency mute in use", "", "protection", "unit"],
  ["operation.emergencyMute.connectorId", "emergency mute contact", "", "protection", "unit"],
  ["operation.emergencyMute.activeWhen", "emergency mute when", "", "protection", "unit"],
  ["operation.emergencyMute.release", "emergency mute release", "", "protection", "unit"],
  ["operation.nonSync.sourceId", "non-sync source", "", "operation", "house", "sources"],
  ["operation.nonSync.presetId", "non-sync preset", "", "operation", "house", "presets"],
  ["operation.paging.sourceId", "paging source", "", "operation", "house", "sources"],
  ["operation.paging.presetId", "paging preset", "", "operation", "house", "presets"],
  ["operation.paging.programDuckDb", "lowering of the program while paging", "dB", "operation", "house"],
  ["operation.boothMonitor.outputId", "booth monitor output", "", "operation", "unit", "outputs"],
  ["operation.boothMonitor.levelDb", "booth monitor level", "dB", "operation", "unit"],
  ["operation.hearingImpaired.outputId", "hearing-impaired output", "", "routing", "unit", "outputs"],
  ["operation.hearingImpaired.levelDb", "hearing-impaired level", "dB", "sound", "unit"],
  ["operation.hearingImpaired.whenAbsent", "hearing-impaired without HI channel", "", "operation", "house"],
  ["operation.narration.outputId", "narration output", "", "routing", "unit", "outputs"],
  ["operation.narration.levelDb", "narration level", "dB", "sound", "unit"],
  ["automation[].id", "automation item", "", "record", "house"],
  ["automation[].label", "name of the automation item", "", "record", "house"],
  ["automation[].trigger.kind", "trigger", "", "operation", "house"],
  ["automation[].trigger.connectorId", "trigger contact", "", "operation", "unit"],
  ["automation[].trigger.edge", "trigger edge", "", "operation", "house"],
  ["automation[].trigger.text", "trigger text", "", "operation", "house"],
  ["automation[].trigger.interfaceId", "trigger interface", "", "operation", "unit", "network.interfaces"],
  ["automation[].action.kind", "action", "", "operation", "house"],
  ["automation[].action.presetId", "preset to recall", "", "operation", "house", "presets"],
  ["automation[].action.faderMark", "fader to set", "mark", "operation", "house"],
  ["automation[].action.sourceId", "source to select", "", "operation", "house", "sources"],
  ["automation[].waitMs", "wait", "ms", "operation", "house"],
  ["network.hostname", "host name", "", "operation", "unit"],
  ["network.interfaces[].id", "network interface", "", "record", "unit"],
  ["network.interfaces[].label", "name of the network interface", "", "record", "unit"],
  ["network.interfaces[].purpose", "purpose", "", "operation", "unit"],
  ["network.interfaces[].mode", "address mode", "", "operation", "unit"],
  ["network.interfaces[].address", "address", "", "operation", "unit"],
  ["network.interfaces[].prefixLength", "prefix length", "bits", "operation", "unit"],
  ["network.interfaces[].gateway", "gateway", "", "operation", "unit"],
  ["calibration.date", "date of calibration", "", "record", "alignment"],
  ["calibration.by", "calibrated by", "", "record", "alignment"],
  ["calibration.equalizationId", "EQ set at calibration", "", "record", "alignment", "equalizations"],
  ["calibration.microphonePositions[].id", "microphone position", "", "record", "alignment"],
  ["calibration.microphonePositions[].xM", "position across", "m", "record", "alignment"],
  ["calibration.microphonePositions[].yM", "distance from the screen", "m", "record", "alignment"],
  ["calibration.microphonePositions[].zM", "height", "m", "record", "alignment"],
  ["calibration.channels[].channelId", "program channel", "", "record", "alignment", "channels"],
  ["calibration.channels[].levelDbC", "measured level", "dB SPL", "record", "alignment"],
  ["calibration.channels[].inBandGainDb", "measured in-band gain", "dB", "record", "alignment"],
  ["calibration.channels[].thirdOctavesDb[]", "measured third octave", "dB", "record", "alignment"],
  ["calibration.notes", "remarks on the calibration", "", "record", "alignment"],
  ["notes", "remarks", "", "record", "document"],
];

/** Every leaf of the configuration schema, in the order of the signal flow. A test holds it against the schema. */
export const FIELDS: readonly Field[] = LINES.map(([path, label, unit, kind, owner, refersTo]) => ({
  path,
  label,
  unit,
  kind,
  owner,
  ...(refersTo === undefined ? {} : { refersTo }),
}));

/**
 * How the items of a list are told apart: by a member of each item; by `index`, where a place means a band of a fixed
 * layout; or not at all (`whole`), where the list makes sense only as one.
 */
export type ListKey = "id" | "channelId" | "index" | "whole";

/** Every list of the configuration schema; each after the lists that its items refer to. */
export const LIST_KEYS: Readonly<Record<string, ListKey>> = {
  sources: "id",
  "sources[].channels": "id",
  channels: "id",
  equalizations: "id",
  "equalizations[].channels": "channelId",
  "equalizations[].channels[].graphic.gainsDb": "index",
  "equalizations[].channels[].parametric": "id",
  presets: "id",
  "presets[].routing": "id",
  loudspeakers: "id",
  "loudspeakers[].ways": "id",
  outputs: "id",
  "outputs[].mix": "channelId",
  "outputs[].filters": "id",
  "outputs[].fir.taps": "whole",
  "network.interfaces": "id",
  automation: "id",
  "calibration.microphonePositions": "id",
  "calibration.channels": "channelId",
  "calibration.channels[].thirdOctavesDb": "index",
};

const byPath = new Map(FIELDS.map((field) => [field.path, field]));

/** The line of one leaf; `undefined` for a path that is no leaf of the schema. */
export function fieldAt(path: string): Field | undefined {
  return byPath.get(path);
}

/** The lines of a leaf, an object or a list item and all below it: `fieldsUnder("outputs[].limiter")` gives four. */
export function fieldsUnder(path: string): readonly Field[] {
  return FIELDS.filter((field) => field.path === path || isBelow(field.path, path));
}

function isBelow(path: string, ancestor: string): boolean {
  return ancestor === "" || path.startsWith(`${ancestor}.`) || path.startsWith(`${ancestor}[]`);
}
