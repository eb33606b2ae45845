const KINDS_OF_FILTER = [
  "peaking",
  "low-shelf",
  "high-shelf",
  "low-pass",
  "high-pass",
  "band-pass",
  "all-pass",
  "notch",
];
const FORMATS = ["mono", "stereo", "5.1", "6.1", "7.1DS", "7.1SDS"];
const LABELS = "L R C LFE Ls Rs Lss Rss Lrs Rrs Lc Rc Cs HI VIN".split(" ");
const FAMILIES = ["butterworth", "linkwitz-riley", "bessel"];

/** Words that a field may hold, for fields that hold one of several. A test holds them against the schema. */
export const FIELD_WORDS: Readonly<Record<string, readonly string[]>> = {
  "screen.format": FORMATS,
  "sources[].kind": ["aes3", "aes67", "analog-multichannel", "spdif", "analog-stereo", "microphone"],
  "sources[].assignment": ["isdcf-doc4-2017", "as-labelled"],
  "sources[].channels[].carries": [
    ...LABELS,
    ...["mono", "motion-data", "sync-signal", "sign-language-video", "unused"],
  ],
  "channels[].label": LABELS,
  "equalizations[].channels[].graphic.layout": [
    ...["third-octave-27", "third-octave-31", "two-thirds-octave-15", "octave-10"],
  ],
  "equalizations[].channels[].parametric[].kind": KINDS_OF_FILTER,
  "presets[].format": FORMATS,
  "loudspeakers[].placement": [
    ...["screen-left", "screen-left-center", "screen-center", "screen-right-center", "screen-right"],
    ...["surround-left", "surround-left-side", "surround-left-rear", "surround-rear", "surround-right"],
    ...["surround-right-side", "surround-right-rear", "subwoofer"],
  ],
  "loudspeakers[].drive": ["passive", "active-2", "active-3", "active-4"],
  "loudspeakers[].ways[].band": ["full", "lf", "mf", "hf", "vhf", "sub"],
  "outputs[].feeds.kind": ["loudspeaker", "booth-monitor", "hearing-impaired", "narration", "spare"],
  "outputs[].highPass.family": FAMILIES,
  "outputs[].highPass.normalization": ["phase", "magnitude"],
  "outputs[].lowPass.family": FAMILIES,
  "outputs[].lowPass.normalization": ["phase", "magnitude"],
  "outputs[].filters[].kind": KINDS_OF_FILTER,
  "outputs[].polarity": ["normal", "inverted"],
  "operation.emergencyMute.activeWhen": ["open", "closed"],
  "operation.emergencyMute.release": ["automatic", "by-hand"],
  "operation.hearingImpaired.whenAbsent": ["silence", "program-mix"],
  "automation[].trigger.kind": ["contact", "serial", "network"],
  "automation[].trigger.edge": ["closing", "opening"],
  "automation[].action.kind": ["recall-preset", "set-fader", "mute", "unmute", "select-source"],
  "network.interfaces[].purpose": ["control", "audio"],
  "network.interfaces[].mode": ["automatic", "fixed"],
};
