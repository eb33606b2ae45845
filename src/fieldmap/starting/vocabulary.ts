/**
 * Words that mean one thing in names of settings, the first of each line being the configuration's own. Trade usage and
 * plain English: common practice, no source.
 */
const SAME_WORDS = `
address ip addr
attack att
assignment rule position
automation cue trigger command event
band bell
bandwidth
boxes cabinet count
carries for content
channel ch strip to into input in plug program
connector jack plug socket terminal contact pin number no
date when day
delay late latency sample frame behind lag us
distance metres feet
drive amping
edge
emergency alarm fire
enabled on active state in bypass byp use
eq equalization equalizer curve peq set correction
family alignment
fader master volume
feeds feed
filter drv band bell
firmware software fw
format as
frequency hz khz freq corner
gain level trim db dbc tenths share times attenuation lev
gateway router
graphic
hearing hi
high-pass hp hpf above low-end lowcut
host hostname
id key ident
impedance ohm
interface port lan nic
interval nonsync
kind type
label name title called
layout band
limiter limit lim
low-pass lp lpf below high-end highcut
loudspeaker speaker spk
measurement measured calibration meas tone
microphone mic place
mode
monitor
mute muted off audible live sound silent
narration vin
network net
normalization norm
order slope-order poles
output out amp
paging page announcement
part mix send
power watt rated
polarity phase inverted turned
position number no place
prefix bits prefixlength
preset show pre scene
profile model type device
purpose
q octaves width
rate samplerate clock
reason why because
release rel
notes remark note comment
revision edition issue rev
room hall auditorium screen
routing route cross x crossing
seats
serial sn
site house
slope
slot
source src plays from
temperature air temp
text string
threshold thr at dbfs
third thirdoctave
wait pause
way
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

/** The words of a name: "low-end/@hz" gives "low", "end", "lowend", "hz". */
export function wordsOf(name: string): readonly string[] {
  return name.split("/").flatMap((part) => {
    const words = part
      .replace(/([a-z])([A-Z])/g, "$1 $2")
      .toLowerCase()
      .split(/[^a-z]+/)
      .filter((word) => word !== "");
    const pairs = words.slice(1).map((word, i) => `${words[i]}${word}`);
    return [...words, ...pairs.filter((pair) => CONCEPTS.has(pair))];
  });
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
