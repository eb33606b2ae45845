import type { Action, Configuration, Trigger } from "../model/index.ts";
import { quoted } from "./lists.ts";
import { printMs } from "./numbers.ts";

/** What may stand in the list of automation. */
interface Item {
  readonly trigger: Trigger;
  readonly action: Action;
  readonly waitMs?: number;
}

/** In a comparison: "serial text “SHOW 1” on rs232-01: recall preset “Feature” after 200 ms". */
export function automationInComparison(
  configuration: Configuration,
  { trigger, action, waitMs }: Item,
): string {
  const wait = waitMs === undefined || waitMs === 0 ? "" : ` after ${printMs(waitMs, 0)}`;
  return `${triggerInComparison(configuration, trigger)}: ${actionInComparison(configuration, action)}${wait}`;
}

function triggerInComparison({ network }: Configuration, trigger: Trigger): string {
  switch (trigger.kind) {
    case "contact":
      return `contact ${trigger.connectorId} ${trigger.edge}`;
    case "serial":
      return `serial text ${quoted(trigger.text)} on ${trigger.connectorId}`;
    case "network": {
      const name = network.interfaces.find(({ id }) => id === trigger.interfaceId)?.label;
      return `network text ${quoted(trigger.text)} on ${name ?? trigger.interfaceId}`;
    }
  }
}

function actionInComparison({ presets, sources }: Configuration, action: Action): string {
  switch (action.kind) {
    case "recall-preset":
      return `recall preset ${quoted(presets.find(({ id }) => id === action.presetId)?.label ?? action.presetId)}`;
    case "set-fader":
      return `set the fader to ${action.faderMark}`;
    case "select-source":
      return `select source ${quoted(sources.find(({ id }) => id === action.sourceId)?.label ?? action.sourceId)}`;
    default:
      return action.kind;
  }
}

/** Of a standard, which knows parts of a screen only by id: "the text 'SHOW 1' on 'rs232-01'". */
export function triggerByIds(trigger: Trigger): string {
  switch (trigger.kind) {
    case "contact":
      return `'${trigger.connectorId}' ${trigger.edge}`;
    case "serial":
      return `the text '${trigger.text}' on '${trigger.connectorId}'`;
    case "network":
      return `the text '${trigger.text}' over the network`;
  }
}

/** Of a standard: "recall 'feature'". */
export function actionByIds(action: Action): string {
  switch (action.kind) {
    case "recall-preset":
      return `recall '${action.presetId}'`;
    case "mute":
    case "unmute":
      return action.kind;
    case "set-fader":
      return `set the fader to ${action.faderMark}`;
    case "select-source":
      return `select '${action.sourceId}'`;
  }
}

type NameOf = (id: string) => string;

/** On an entry sheet: "Contact 1: C1, rising", "Serial: RS-232: SHOW 1". */
export function triggerToKeyIn(
  trigger: Trigger,
  { connector, networkInterface }: { readonly connector: NameOf; readonly networkInterface: NameOf },
): string {
  switch (trigger.kind) {
    case "contact":
      return `${connector(trigger.connectorId)}, ${trigger.edge}`;
    case "serial":
      return `${connector(trigger.connectorId)}: ${trigger.text}`;
    case "network":
      return `${networkInterface(trigger.interfaceId)}: ${trigger.text}`;
  }
}

/** On an entry sheet: "recall 'Feature'". */
export function actionToKeyIn(
  action: Action,
  {
    preset,
    source,
    fader,
  }: {
    readonly preset: NameOf;
    readonly source: NameOf;
    readonly fader: (action: { readonly faderMark: number }) => string;
  },
): string {
  switch (action.kind) {
    case "recall-preset":
      return `recall '${preset(action.presetId)}'`;
    case "set-fader":
      return `fader to ${fader(action)}`;
    case "select-source":
      return `select '${source(action.sourceId)}'`;
    default:
      return action.kind;
  }
}
