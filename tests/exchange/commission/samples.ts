import { readFileSync } from "node:fs";
import { join } from "node:path";
import {
  readDocument,
  readProfile,
  type ScreenDescription,
  type UnitProfile,
} from "../../../src/model/index.ts";

const sample = (name: string) => readFileSync(join(import.meta.dirname, "../../../samples", name));

export const loudspeakerData = readDocument(sample("loudspeakers/house-data.json"), {
  expect: "boothkeep.loudspeaker-data",
}).document;

export function profileNamed(id: string): UnitProfile {
  return readProfile(sample(`profiles/${id}.json`)).document;
}

/** A described screen, moved to another unit: its profile, a firmware that fits and a contact that exists. */
export function described(name: string, profile: UnitProfile): ScreenDescription {
  const { document } = readDocument(sample(`descriptions/${name}.json`), {
    expect: "boothkeep.screen-description",
  });
  const contact = profile.connectors.find(({ kind }) => kind === "contact")!;
  const firmware = /\d+\.\d+\.\d+/.exec(profile.firmwareRange)![0];
  return {
    ...document,
    unit: { ...document.unit, profileId: profile.id, firmware },
    emergencyMute: { connectorId: contact.id, activeWhen: "open" },
  };
}
