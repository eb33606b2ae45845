import { describe, expect, it } from "vitest";
import { createLogbook, memoryStore, record } from "../../src/logbook/index.ts";
import { type PackContent, readPack, writePack } from "../../src/pack/index.ts";
import { keyPairFromSeed, publicKeyBytes } from "../../src/signing/index.ts";
import { circumstances, configuration, NEW_LOGBOOK } from "../logbook/support/documents.ts";

const keys = keyPairFromSeed(new Uint8Array(32).fill(7));
const trusted = {
  name: "north team",
  publicKey: Buffer.from(publicKeyBytes(keys.publicKeyPem)).toString("base64"),
};

function content(more: Partial<PackContent> = {}): PackContent {
  return {
    createdAt: "2026-03-02T23:55:00+01:00",
    createdBy: "service team north",
    configuration: configuration(),
    profile: { kind: "boothkeep.unit-profile", id: "tern-16" },
    sheets: { text: "Screen 3\n", html: "<p>Screen 3</p>\n" },
    cautions: "Amplifiers off.\n",
    ...more,
  };
}

describe("writePack and readPack", () => {
  it("gives back what went in", async () => {
    const logbook = createLogbook(memoryStore(), NEW_LOGBOOK);
    const first = record(logbook, { configuration: configuration(), ...circumstances(0) });
    const changed = configuration({ outputs: [] });
    const second = record(logbook, { configuration: changed, ...circumstances(1) });
    const given = content({
      configuration: changed,
      entry: second.entry,
      previous: [{ entry: first.entry, configuration: configuration() }],
      attachments: [{ name: "Unit export.xml", bytes: new Uint8Array([60, 0, 255]) }],
      key: keys,
    });
    const pack = await readPack(await writePack(given), { trustedKeys: [trusted] });
    expect(pack).toMatchObject({
      configuration: changed,
      profile: given.profile,
      entry: second.entry,
      previous: given.previous,
      sheets: given.sheets,
      cautions: given.cautions,
      attachments: given.attachments,
      signature: { kind: "trusted", name: "north team" },
    });
  });

  it("makes the same bytes of the same content", async () => {
    expect(await writePack(content())).toEqual(await writePack(content()));
  });
});
