import type { Source } from "../../../../src/model/index.ts";
import { dcpSource, labelledSource } from "../sources.ts";

/** Sources of a large auditorium: server, event network, disc player, guest reader, music, microphone. */
export const LARGE_SOURCES: readonly Source[] = [
  dcpSource({ id: "dcp", label: "Server", kind: "aes3", latencyMs: 0, connectors: "aes-in", count: 16 }),
  labelledSource({
    id: "event",
    label: "Event network",
    kind: "aes67",
    latencyMs: 24,
    connectors: "net-in",
    carries: ["L", "C", "R", "Ls", "Rs", "LFE", "unused", "unused"],
  }),
  labelledSource({
    id: "disc",
    label: "Disc player",
    kind: "spdif",
    latencyMs: 0,
    connectors: "spdif-in",
    carries: ["L", "R"],
  }),
  labelledSource({
    id: "guest",
    label: "Guest reader",
    kind: "analog-multichannel",
    latencyMs: 0,
    connectors: "analog-in",
    carries: ["L", "R", "C", "LFE", "Ls", "Rs"],
    gainDb: 1.5,
  }),
  labelledSource({
    id: "music",
    label: "Music player",
    kind: "analog-stereo",
    latencyMs: 0,
    connectors: "line-in",
    carries: ["L", "R"],
    gainDb: -2,
  }),
  labelledSource({
    id: "microphone",
    label: "House microphone",
    kind: "microphone",
    latencyMs: 0,
    connectors: "mic-in",
    carries: ["mono"],
    gainDb: 6,
  }),
];
