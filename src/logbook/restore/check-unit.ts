import { compareFindings, type Finding } from "../../base/findings/index.ts";
import type { Configuration, UnitProfile } from "../../model/index.ts";
import { holdsForFirmware } from "../../profile/index.ts";
import { printHz } from "../../words/index.ts";
import { restoreFinding } from "./restore-findings.ts";

/** The unit that stands in the booth now, as far as it is known. */
export interface UnitAtHand {
  /** Profile of its model. */
  readonly profile: UnitProfile;
  /** Serial number as on the unit. */
  readonly serial?: string;
  /** Firmware version as the unit shows it (Semantic Versioning 2.0.0). */
  readonly firmware?: string;
}

/**
 * Whether a configuration may be loaded into the unit at hand as it is: same model, sample rate that the model has,
 * firmware for which the profile holds, and whether it is the unit that was recorded. Errors say: do not load.
 */
export function checkUnit(configuration: Configuration, unit: UnitAtHand): readonly Finding[] {
  // Of another model, neither firmware nor serial number matters any more.
  if (unit.profile.id !== configuration.unit.profileId) return [otherModel(configuration, unit)];
  return [
    ...profileFindings(configuration, unit),
    ...firmwareFindings(configuration, unit),
    ...serialFindings(configuration, unit),
  ].sort(compareFindings);
}

/** The configuration as it is to be loaded: for the unit at hand, with its serial number and firmware. */
export function configurationToLoad(
  configuration: Configuration,
  { serial, firmware }: UnitAtHand,
): Configuration {
  return {
    ...configuration,
    unit: {
      ...configuration.unit,
      ...(serial !== undefined && { serial }),
      ...(firmware !== undefined && { firmware }),
    },
  };
}

function otherModel({ unit }: Configuration, { profile }: UnitAtHand): Finding {
  return restoreFinding("restore/other-model", {
    words: `The configuration is for the model '${unit.profileId}', the unit is a '${profile.id}' (${profile.label}).`,
    numbers: { recorded: unit.profileId, atHand: profile.id },
  });
}

function profileFindings({ unit }: Configuration, { profile }: UnitAtHand): readonly Finding[] {
  const findings: Finding[] = [];
  if (profile.revision !== unit.profileRevision) {
    findings.push(
      restoreFinding("restore/other-profile-revision", {
        words: `The configuration was made with revision ${unit.profileRevision} of the unit profile; at hand is ${profile.revision}.`,
        numbers: { recorded: unit.profileRevision, atHand: profile.revision },
      }),
    );
  }
  if (!profile.sampleRatesHz.includes(unit.sampleRateHz)) {
    findings.push(
      restoreFinding("restore/sample-rate", {
        words: `The configuration runs at ${printHz(unit.sampleRateHz)}; the unit has ${profile.sampleRatesHz.map(printHz).join(", ")}.`,
        numbers: { sampleRateHz: unit.sampleRateHz },
      }),
    );
  }
  return findings;
}

function firmwareFindings({ unit }: Configuration, { profile, firmware }: UnitAtHand): readonly Finding[] {
  const version = firmware ?? unit.firmware;
  const numbers = { recorded: unit.firmware, atHand: firmware ?? null, range: profile.firmwareRange };
  const findings: Finding[] = [];
  if (!holdsForFirmware(profile, version)) {
    findings.push(
      restoreFinding("restore/firmware-outside-range", {
        words: `The unit profile holds for firmware ${profile.firmwareRange}; ${firmware === undefined ? "recorded was" : "the unit has"} ${version}.`,
        numbers,
      }),
    );
  } else if (firmware !== undefined && firmware !== unit.firmware) {
    findings.push(
      restoreFinding("restore/other-firmware", {
        words: `Recorded with firmware ${unit.firmware}; the unit has ${firmware}. The unit profile holds for both.`,
        numbers,
      }),
    );
  }
  if (firmware === undefined) {
    findings.push(
      restoreFinding("restore/firmware-unknown", {
        words: `The firmware of the unit at hand was not given; ${unit.firmware} was recorded and is assumed.`,
        numbers,
      }),
    );
  }
  return findings;
}

function serialFindings({ unit }: Configuration, { serial }: UnitAtHand): readonly Finding[] {
  if (serial === undefined) {
    return [
      restoreFinding("restore/serial-unknown", {
        words: `The serial number of the unit at hand was not given; ${unit.serial} was recorded and stays in the file.`,
        numbers: { recorded: unit.serial },
      }),
    ];
  }
  if (serial === unit.serial) return [];
  return [
    restoreFinding("restore/other-serial", {
      words: `Recorded on unit ${unit.serial}; at hand is ${serial}.`,
      numbers: { recorded: unit.serial, atHand: serial },
    }),
  ];
}
