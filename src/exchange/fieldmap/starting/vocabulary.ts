/**
 * Words that mean one thing in names of settings, the first of each line being the configuration's own. Trade usage and
 * plain English: common practice, no source.
 */
const SAME_WORDS = `
address ip addr
assignment rule position
attack att atk
automation cue trigger command event
band bell
boxes cabinet count n number qty quantity
carries for content is
channel ch strip to into input in plug program
connector jack plug socket terminal contact pin number no pins
date when day
delay late latency sample frame behind lag us del dly time
distance metres feet
drive amping wiring amplification
edge
emergency alarm fire
enabled on active state in bypass byp use
eq equalization equalizer curve peq set correction bank equaliser tone
fader master volume main
family alignment
feeds feed
filter drv band bell eq peq
firmware software fw version ver build sw release
format as layout soundfield
frequency hz khz freq corner f fc cutoff
gain level trim db dbc tenths share times attenuation lev lvl g ddb att
gateway router
graphic
hearing hi hoh assist impaired
height high h tall
high-pass hp hpf above low-end lowcut
host hostname
id key ident code ref uid handle
impedance ohm
interface port lan nic
interval nonsync
kind type t
label name title called caption description desc alias tag text
layout band
length depth long len
limiter limit lim
loudspeaker speaker spk box cabinet spkr
low-pass lp lpf below high-end highcut
measurement measured calibration meas tone
microphone mic place
monitor mon booth
mute muted off audible live sound silent silence silenced
narration vin vi ad
network net
normalization norm
notes remark note comment
number n
order slope-order poles ord slope
output out amp line zone
paging page announcement
parametric band filter bell peq
part mix send
placement position location spot where at place
polarity phase inverted turned pol phs invert inv
position number no place
power watt rated
prefix bits prefixlength
preset show pre scene macro memory setup
profile model type device mdl product
purpose
q octaves width bw
rate samplerate clock sr fs sampling fsamp
reason why because
release rel rls
revision edition issue rev
room hall auditorium screen theatre theater aud venue cinema sal saal
routing route cross x crossing matrix xp crosspoint
safe min fmin lowest protect minimum
seats seat capacity chairs
serial sn snr ser serialno serialnumber
site house location venue complex cinema theatre
slope
slot index number no n idx
source src plays from feed input group grp in
start boot startup default poweron
temperature air temp celsius
text string
third thirdoctave
threshold thr at dbfs thresh
video picture av lipsync image projector
wait pause
way band driver section
width wide w breadth
`;

const CONCEPTS: ReadonlyMap<string, readonly string[]> = concepts();

function concepts(): ReadonlyMap<string, readonly string[]> {
  const found = new Map<string, string[]>();
  for (const line of SAME_WORDS.trim().split("\n")) {
    const [own, ...others] = line.split(" ");
    for (const word of [own!, ...others]) {
      const plain = word.replaceAll("-", "");
      for (const form of [plain, `${plain}s`]) found.set(form, [...(found.get(form) ?? []), own!]);
    }
  }
  return found;
}

export function isKnownWord(word: string): boolean {
  return CONCEPTS.has(word.toLowerCase());
}

/** The words of a name: "low-end/@hz" gives "low", "end", "lowend", "hz". */
export function wordsOf(name: string): readonly string[] {
  return name.split("/").flatMap((whole) => {
    // A name space says nothing, nor that a value is the text of its element.
    const part = whole === "#text" ? "" : whole.replace(/^(@?)[A-Za-z_][\w-]*:/, "$1");
    const words = part
      .replace(/([a-z])([A-Z])/g, "$1 $2")
      .toLowerCase()
      .split(/[^a-z]+/)
      .filter((word) => word !== "");
    const inside = words.flatMap((word) => (CONCEPTS.has(word) ? [] : knownInside(word)));
    const pairs = words.slice(1).map((word, i) => `${words[i]}${word}`);
    return [...words, ...inside, ...pairs.filter((pair) => CONCEPTS.has(pair))];
  });
}

/** Two words of the trade written as one: "hpfreq". */
function knownInside(word: string): readonly string[] {
  for (let at = 2; at <= word.length - 2; at += 1) {
    const [head, tail] = [word.slice(0, at), word.slice(at)];
    if (CONCEPTS.has(head) && CONCEPTS.has(tail)) return [head, tail];
  }
  return [];
}

const UNITS: ReadonlySet<string> = new Set(["db", "ms", "hz", "m", "c", "w", "ohm", "mark", "dbfs"]);

/** What a name may mean: each of its words with all that say the same. */
export interface Meaning {
  readonly words: readonly (readonly string[])[];
}

/** The meaning of a place in an export. */
export function meaningOf(name: string): Meaning {
  return { words: wordsOf(name).map((word) => [word, ...(CONCEPTS.get(word) ?? [])]) };
}

/** The meaning of a field's name, without its unit: "highPass.frequencyHz" is "high-pass" and "frequency". */
export function meaningOfField(path: string): readonly string[] {
  return path
    .replaceAll("[]", "")
    .split(".")
    .flatMap((part) => {
      const plain = part.replace(/([a-z])([A-Z])/g, "$1 $2").toLowerCase();
      const words = plain.replace("high pass", "high-pass").replace("low pass", "low-pass").split(" ");
      const own = words.filter((word, i) => i === 0 || !(UNITS.has(word) || word === "id"));
      return own.map(conceptOf);
    });
}

function conceptOf(word: string): string {
  const concepts = CONCEPTS.get(word) ?? [word];
  return concepts.includes(word) ? word : concepts[0]!;
}

/** How well a name fits words that are looked for: 1 if each means one of the other's, 0 if none does. */
export function likeness(wanted: readonly string[], { words }: Meaning): number {
  if (words.length === 0 || wanted.length === 0) return 0;
  const covered = wanted.filter((word) => words.some((own) => own.includes(word))).length;
  const used = words.filter((own) => own.some((word) => wanted.includes(word))).length;
  return (covered + used) / (wanted.length + words.length);
}
