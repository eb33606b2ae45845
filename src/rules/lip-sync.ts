import type { Preset } from "../model/index.ts";
import { unitLatencyMs } from "../profile/index.ts";
import type { RuleContext } from "./context.ts";

/**
 * How late the screen channels of a preset are behind the picture at the reference seat's ears without the way through
 * the air, in milliseconds: source, unit, preset, channel and output delay less the delay of the picture. Undefined for
 * presets without picture (non-sync, microphone). The air is left out: the picture's reference is the screen.
 */
export function soundLateMs(context: RuleContext, preset: Preset): number | undefined {
  const { configuration, profile, channels, fedWays } = context;
  const source = context.sources.get(preset.sourceId)?.item;
  if (source === undefined || !["aes3", "aes67"].includes(source.kind)) return undefined;
  const targets = new Set(preset.routing.map(({ channelId }) => channelId));
  const delays = fedWays
    .filter(({ loudspeaker }) => loudspeaker.placement.startsWith("screen"))
    .flatMap(({ item }) =>
      item.mix
        .filter(({ channelId }) => targets.has(channelId) && channels.has(channelId))
        .map(({ channelId }) => channels.get(channelId)!.item.delayMs + item.delayMs),
    );
  if (delays.length === 0) return undefined;
  const unitMs = profile === undefined ? 0 : unitLatencyMs(profile, configuration.unit.sampleRateHz);
  return (
    source.latencyMs + unitMs + preset.delayMs + Math.min(...delays) - configuration.screen.videoLatencyMs
  );
}
