import type { AutomationItem, Preset } from "../../../../src/model/index.ts";
import { contactItems, networkItems, recall, serialRecalls } from "../automation.ts";

/** Contacts for the show controller, recalls over the serial line, everything over the network. */
export function largeAutomation(presets: readonly Preset[]): AutomationItem[] {
  return [
    ...contactItems([
      { label: "Trailers", action: recall("trailers-51") },
      { label: "Feature 5.1", action: recall("feature-51") },
      { label: "Feature 7.1DS", action: recall("feature-71") },
      { label: "Music", action: recall("music") },
      { label: "Mute", action: { kind: "mute" } },
      { label: "End of mute", action: { kind: "unmute" } },
    ]),
    ...serialRecalls(presets),
    ...networkItems([
      ...presets.map(({ id, label, slot }) => ({ id, label, text: `show ${slot}`, action: recall(id) })),
      { id: "mute", label: "Mute", text: "sound off", action: { kind: "mute" } },
      { id: "unmute", label: "End of mute", text: "sound on", action: { kind: "unmute" } },
      {
        id: "fader-reference",
        label: "Fader reference",
        text: "level reference",
        action: { kind: "set-fader", faderMark: 80 },
      },
      {
        id: "fader-low",
        label: "Fader low",
        text: "level low",
        action: { kind: "set-fader", faderMark: 65 },
      },
      {
        id: "source-disc",
        label: "Disc player",
        text: "source disc",
        action: { kind: "select-source", sourceId: "disc" },
      },
    ]),
  ];
}
