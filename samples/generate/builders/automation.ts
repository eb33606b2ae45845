import type { Action, AutomationItem, Preset } from "../../../src/model/index.ts";

/** Contact closures of the booth's show controller, on the contact terminals in order: "contact-01", "contact-02". */
export function contactItems(
  items: readonly { readonly label: string; readonly action: Action }[],
  connectors = "contact",
): AutomationItem[] {
  return items.map(({ label, action }, index) => ({
    id: `contact-${index + 1}`,
    label,
    trigger: {
      kind: "contact",
      connectorId: `${connectors}-${String(index + 1).padStart(2, "0")}`,
      edge: "closing",
    },
    action,
  }));
}

/** A text on the serial line for each preset: "SHOW 3". */
export function serialRecalls(presets: readonly Preset[], connectorId = "serial-01"): AutomationItem[] {
  return presets.map((preset) => ({
    id: `serial-${preset.id}`,
    label: preset.label,
    trigger: { kind: "serial", connectorId, text: `SHOW ${preset.slot}` },
    action: { kind: "recall-preset", presetId: preset.id },
  }));
}

/** A text over the network for each action. */
export function networkItems(
  items: readonly {
    readonly id: string;
    readonly label: string;
    readonly text: string;
    readonly action: Action;
  }[],
): AutomationItem[] {
  return items.map(({ id, label, text, action }) => ({
    id: `network-${id}`,
    label,
    trigger: { kind: "network", interfaceId: "control", text },
    action,
  }));
}

export function recall(presetId: string): Action {
  return { kind: "recall-preset", presetId };
}
