import type { AutomationItem, Configuration, Preset } from "../../../src/model/index.ts";
import { lanternMill1 } from "../screens/lantern-mill-1.ts";
import { networkItems, recall } from "./automation.ts";

/** How many variants of the house's presets fill the unit's slots. */
const VARIANTS = 18;

/** Lantern Mill 1 with every preset slot in use, as houses look after ten years: about 5,400 values. */
export function fleetTemplate(): Configuration {
  const base = lanternMill1();
  const variants = Array.from({ length: VARIANTS }, (_, index) => variantOf(base, index));
  return {
    ...base,
    presets: [...base.presets, ...variants],
    automation: [...base.automation, ...recallsOf(variants)],
  };
}

function variantOf({ presets }: Configuration, index: number): Preset {
  const model = presets[index % 4]!;
  const slot = presets.length + index + 1;
  return { ...model, id: `house-${slot}`, slot, label: `House ${slot}` };
}

function recallsOf(presets: readonly Preset[]): AutomationItem[] {
  return networkItems(
    presets.map(({ id, label, slot }) => ({ id, label, text: `show ${slot}`, action: recall(id) })),
  );
}
