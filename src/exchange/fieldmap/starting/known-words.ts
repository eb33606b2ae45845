import { FIELD_WORDS } from "../field-words.ts";

/**
 * Other words for those that a field may hold, as data sheets and menus of the trade have them, small and without signs.
 * Common practice, no source.
 */
const OTHER_WORDS: Readonly<Record<string, string>> = {
  "linkwitz-riley": "lr linkwitz lrk",
  butterworth: "bw but butter btw bwth",
  bessel: "bs bes bl",
  peaking: "pk peq peak bell para parametric eq param",
  "low-shelf": "ls lsh lsf loshelf lowshelving shelflow shelvinglow lshv",
  "high-shelf": "hs hsh hsf hishelf highshelving shelfhigh shelvinghigh hshv",
  "high-pass": "hp hpf hipass lowcut locut",
  "low-pass": "lp lpf lopass highcut hicut",
  "band-pass": "bp bpf",
  "all-pass": "ap apf",
  notch: "nt ntch bandstop bs",
  normal: "nor norm pos positive plus + 0 0° in nrm straight",
  inverted: "inv neg negative minus - 180 180° out rev reverse reversed invert flipped",
  aes3: "aes aesebu digital dig aes3id",
  aes67: "network net aoip",
  "analog-multichannel": "analog analogue ana multichannel analogmulti anamulti analoguemultichannel",
  "analog-stereo": "stereo analoguestereo ana2 analog2 aux",
  microphone: "mic",
  spdif: "coax toslink",
  passive: "pas full",
  "active-2": "biamp 2way twoway bi 2",
  "active-3": "triamp 3way threeway tri 3",
  "active-4": "quadamp 4way fourway 4",
  full: "fr fullrange fullband wide",
  lf: "low woofer bass lo",
  mf: "mid midrange",
  hf: "high horn tweeter hi",
  vhf: "veryhigh supertweeter",
  sub: "subwoofer sw",
  L: "left lt lft",
  R: "right rt rgt",
  C: "center centre ctr cnt",
  LFE: "sub sw subwoofer",
  Ls: "leftsurround lsur surrl surroundleft sl",
  Rs: "rightsurround rsur surrr surroundright sr",
  HI: "hearing hearingimpaired",
  VIN: "vi narration vnar ad",
  "7.1DS": "71 71ds",
  "7.1SDS": "71sds",
  "5.1": "51",
  "6.1": "61",
  stereo: "20 2ch",
  subwoofer: "sub sw",
  "program-mix": "mix program",
  silence: "mute off",
  "as-labelled": "labels bylabel",
  closing: "close closes rising",
  opening: "open opens falling",
  contact: "gpi gpio relay",
  automatic: "auto dhcp",
  fixed: "static manual",
};

const plain = (word: string): string =>
  word
    .trim()
    .toLowerCase()
    .replace(/(?<![\s_./-])[\s_./-]+(?=.)/g, "");

/** What words of an export mean among those that a field may hold; undefined unless each means one, and another one. */
export function meaningsOf(path: string, raws: readonly string[]): ReadonlyMap<string, string> | undefined {
  const words = FIELD_WORDS[path];
  if (words === undefined) return undefined;
  const found = new Map<string, string>();
  for (const raw of new Set(raws.map((one) => one.trim()))) {
    const own =
      words.find((word) => word === raw) ??
      words.find((word) => plain(word) === plain(raw)) ??
      words.find((word) => OTHER_WORDS[word]?.split(" ").includes(plain(raw)));
    if (own === undefined || [...found.values()].includes(own)) return undefined;
    found.set(raw, own);
  }
  return found.size === 0 ? undefined : found;
}
