import type { Action, Configuration, Feed, SourceKind, Trigger, UnitProfile } from "../../../model/index.ts";
import { actionToKeyIn, feedToKeyIn, printToKeyIn, triggerToKeyIn } from "../../../words/index.ts";

/** Names of what a configuration refers to by id. */
export interface EntryWords {
  readonly connector: (id: string) => string;
  readonly source: (id: string) => string;
  readonly channel: (id: string) => string;
  readonly preset: (id: string) => string;
  readonly equalization: (id: string) => string;
  readonly output: (id: string) => string;
  readonly feed: (feed: Feed) => string;
  readonly trigger: (trigger: Trigger) => string;
  /** @param fader how a fader mark is said */
  readonly action: (action: Action, fader?: (action: { readonly faderMark: number }) => string) => string;
}

export function entryWords(configuration: Configuration, profile: UnitProfile): EntryWords {
  const names = (list: readonly { readonly id: string; readonly label: string }[]) => {
    const labels = new Map(list.map(({ id, label }) => [id, label]));
    return (id: string) => labels.get(id) ?? id;
  };
  const connectors = new Map(profile.connectors.map((item) => [item.id, `${item.group}: ${item.label}`]));
  const connector = (id: string) => connectors.get(id) ?? id;
  const source = names(configuration.sources);
  const preset = names(configuration.presets);
  const interfaces = names(configuration.network.interfaces);
  const loudspeaker = names(configuration.loudspeakers);
  return {
    connector,
    source,
    preset,
    channel: names(configuration.channels),
    equalization: names(configuration.equalizations),
    output: names(configuration.outputs),
    feed: (feed) => feedToKeyIn(feed, loudspeaker),
    trigger: (trigger) => triggerToKeyIn(trigger, { connector, networkInterface: interfaces }),
    action: (action, fader = ({ faderMark }) => `mark ${printToKeyIn(faderMark, 0)}`) =>
      actionToKeyIn(action, { preset, source, fader }),
  };
}

export const SOURCE_KIND_WORDS: Readonly<Record<SourceKind, string>> = {
  aes3: "AES3 digital",
  aes67: "AES67 network",
  "analog-multichannel": "analog multichannel",
  spdif: "S/PDIF",
  "analog-stereo": "analog stereo",
  microphone: "microphone",
};
