import { connectorUses } from "../connector-uses.ts";
import { set } from "../edits.ts";
import { COMMON_PRACTICE, screenRule } from "../rule.ts";

export const connectorUsedTwice = screenRule({
  code: "unit/connector-used-twice",
  kind: "routing",
  severity: "error",
  title: "Every output connector carries one output, every input connector one channel of a source.",
  why: "Two outputs on one connector: one of them never reaches its amplifier. One input in two places of a source: one label is wrong.",
  source: COMMON_PRACTICE,
  remedy: "Give each its own connector; check the cables against the sheet.",
  example: {
    breaks: [set("/outputs/sub-2-all/connectorId", "out-09")],
    mends: [set("/outputs/sub-2-all/connectorId", "out-10")],
  },
  *check({ configuration }) {
    const outputs = connectorUses(configuration).filter((use) => use.alone);
    yield* doubles(outputs.map(({ path, connectorId }) => ({ path, key: connectorId })));
    for (const [i, source] of configuration.sources.entries()) {
      yield* doubles(
        source.channels.map(({ connectorId }, j) => ({
          path: ["sources", i, "channels", j, "connectorId"],
          key: connectorId,
        })),
      );
    }
  },
});

interface Use {
  readonly path: readonly (string | number)[];
  readonly key: string;
}

function* doubles(uses: readonly Use[]) {
  const seen = new Set<string>();
  for (const { path, key } of uses) {
    if (seen.has(key)) {
      yield { path, words: `Connector '${key}' is used already.`, numbers: { connectorId: key } };
    }
    seen.add(key);
  }
}
