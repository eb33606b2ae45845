import { awayFromXCurve } from "./calibration/away-from-x-curve.ts";
import { channelNotMeasured } from "./calibration/channel-not-measured.ts";
import { dateAhead } from "./calibration/date-ahead.ts";
import { eqNotUsed } from "./calibration/eq-not-used.ts";
import { fewPositions } from "./calibration/few-positions.ts";
import { levelOffReference } from "./calibration/level-off-reference.ts";
import { lfeByMeter } from "./calibration/lfe-by-meter.ts";
import { lfeGain } from "./calibration/lfe-gain.ts";
import { noCalibration } from "./calibration/no-calibration.ts";
import { oldCalibration } from "./calibration/old-calibration.ts";
import { twinsDiffer as calibrationTwinsDiffer } from "./calibration/twins-differ.ts";
import { boostBelowHighPass } from "./crossover/boost-below-high-pass.ts";
import { driveAndWays } from "./crossover/drive-and-ways.ts";
import { gapBetweenWays } from "./crossover/gap-between-ways.ts";
import { halvesDiffer } from "./crossover/halves-differ.ts";
import { highPassBelowSafe } from "./crossover/high-pass-below-safe.ts";
import { highPassTooShallow } from "./crossover/high-pass-too-shallow.ts";
import { noHighPass } from "./crossover/no-high-pass.ts";
import { noLowPass } from "./crossover/no-low-pass.ts";
import { noSubsonicFilter } from "./crossover/no-subsonic-filter.ts";
import { passiveCutShort } from "./crossover/passive-cut-short.ts";
import { subWithoutLowPass } from "./crossover/sub-without-low-pass.ts";
import { surroundWithoutHighPass } from "./crossover/surround-without-high-pass.ts";
import { twinsDiffer as crossoverTwinsDiffer } from "./crossover/twins-differ.ts";
import { unevenSum } from "./crossover/uneven-sum.ts";
import { wayMuted } from "./crossover/way-muted.ts";
import { wayPassesNothing } from "./crossover/way-passes-nothing.ts";
import { wayWithoutOutput } from "./crossover/way-without-output.ts";
import { waysFedApart } from "./crossover/ways-fed-apart.ts";
import { wrongPolarity } from "./crossover/wrong-polarity.ts";
import { auditoriumIncomplete } from "./format/auditorium-incomplete.ts";
import { channelDoubled } from "./format/channel-doubled.ts";
import { channelMissing } from "./format/channel-missing.ts";
import { channelMuted } from "./format/channel-muted.ts";
import { channelOutside } from "./format/channel-outside.ts";
import { channelSilent } from "./format/channel-silent.ts";
import { dataAudible } from "./format/data-audible.ts";
import { foldLevel } from "./format/fold-level.ts";
import { headsetInAuditorium } from "./format/headset-in-auditorium.ts";
import { lfeInMain } from "./format/lfe-in-main.ts";
import { noPresetOfFormat } from "./format/no-preset-of-format.ts";
import { otherSource } from "./format/other-source.ts";
import { positionUndefined } from "./format/position-undefined.ts";
import { sourceLacksChannel } from "./format/source-lacks-channel.ts";
import { unlabelledChannel } from "./format/unlabelled-channel.ts";
import { unusedPosition } from "./format/unused-position.ts";
import { wrongChannel } from "./format/wrong-channel.ts";
import { wrongLoudspeaker } from "./format/wrong-loudspeaker.ts";
import { asGoodAsMuted } from "./level/as-good-as-muted.ts";
import { eqBoost } from "./level/eq-boost.ts";
import { graphicJump } from "./level/graphic-jump.ts";
import { headroom } from "./level/headroom.ts";
import { limiterAboveFullScale } from "./level/limiter-above-full-scale.ts";
import { limiterTooSlow } from "./level/limiter-too-slow.ts";
import { noLimiter } from "./level/no-limiter.ts";
import { presetsApart as levelPresetsApart } from "./level/presets-apart.ts";
import { routeGain } from "./level/route-gain.ts";
import { trimAtEnd } from "./level/trim-at-end.ts";
import { twinEqualizers } from "./level/twin-equalizers.ts";
import { twinGains } from "./level/twin-gains.ts";
import { twinLevels } from "./level/twin-levels.ts";
import { twinLimiterMissing } from "./level/twin-limiter-missing.ts";
import { twinLimiters } from "./level/twin-limiters.ts";
import { twinPolarity } from "./level/twin-polarity.ts";
import { addressIncomplete } from "./operation/address-incomplete.ts";
import { cueSelectsMissingSource } from "./operation/cue-selects-missing-source.ts";
import { emergencyContactShared } from "./operation/emergency-contact-shared.ts";
import { emergencyMuteNotFailSafe } from "./operation/emergency-mute-not-fail-safe.ts";
import { emergencyMuteReleases } from "./operation/emergency-mute-releases.ts";
import { faderOffReference } from "./operation/fader-off-reference.ts";
import { faderTooLoud } from "./operation/fader-too-loud.ts";
import { feedElsewhere } from "./operation/feed-elsewhere.ts";
import { gatewayElsewhere } from "./operation/gateway-elsewhere.ts";
import { headsetFeedMix } from "./operation/headset-feed-mix.ts";
import { headsetNotRouted } from "./operation/headset-not-routed.ts";
import { muteWithoutEnd } from "./operation/mute-without-end.ts";
import { networksOverlap } from "./operation/networks-overlap.ts";
import { noEmergencyMute } from "./operation/no-emergency-mute.ts";
import { noStartPreset } from "./operation/no-start-preset.ts";
import { nonSyncPreset } from "./operation/non-sync-preset.ts";
import { pagingPreset } from "./operation/paging-preset.ts";
import { pagingWithoutDuck } from "./operation/paging-without-duck.ts";
import { presetLabelTwice } from "./operation/preset-label-twice.ts";
import { publicAddress } from "./operation/public-address.ts";
import { recallMissingPreset } from "./operation/recall-missing-preset.ts";
import { sameSerial } from "./operation/same-serial.ts";
import { screenNameTwice } from "./operation/screen-name-twice.ts";
import { siteAddress } from "./operation/site-address.ts";
import { siteHostname } from "./operation/site-hostname.ts";
import { startPresetMissing } from "./operation/start-preset-missing.ts";
import { triggerOnMissingInterface } from "./operation/trigger-on-missing-interface.ts";
import { triggerTwice } from "./operation/trigger-twice.ts";
import type { Rule } from "./rule.ts";
import { danglingReference } from "./shape/dangling-reference.ts";
import { duplicateId } from "./shape/duplicate-id.ts";
import { fieldNotHere } from "./shape/field-not-here.ts";
import { missingField } from "./shape/missing-field.ts";
import { outsideLimits } from "./shape/outside-limits.ts";
import { unknownField } from "./shape/unknown-field.ts";
import { unknownValue } from "./shape/unknown-value.ts";
import { wrongCount } from "./shape/wrong-count.ts";
import { wrongText } from "./shape/wrong-text.ts";
import { wrongType } from "./shape/wrong-type.ts";
import { delayImplausible } from "./time/delay-implausible.ts";
import { lipSync } from "./time/lip-sync.ts";
import { lipSyncNoticed } from "./time/lip-sync-noticed.ts";
import { presetsApart as timePresetsApart } from "./time/presets-apart.ts";
import { screenApart } from "./time/screen-apart.ts";
import { subApart } from "./time/sub-apart.ts";
import { surroundBeforeScreen } from "./time/surround-before-screen.ts";
import { surroundTooLate } from "./time/surround-too-late.ts";
import { twinDelays } from "./time/twin-delays.ts";
import { waysApart } from "./time/ways-apart.ts";
import { automationNotOffered } from "./unit/automation-not-offered.ts";
import { channelLabel } from "./unit/channel-label.ts";
import { connectorUsedTwice } from "./unit/connector-used-twice.ts";
import { crossoverNotOffered } from "./unit/crossover-not-offered.ts";
import { filterNotOffered } from "./unit/filter-not-offered.ts";
import { firmware } from "./unit/firmware.ts";
import { frequencyTooHigh } from "./unit/frequency-too-high.ts";
import { graphicBands } from "./unit/graphic-bands.ts";
import { label } from "./unit/label.ts";
import { noSuchAbility } from "./unit/no-such-ability.ts";
import { noSuchConnector } from "./unit/no-such-connector.ts";
import { otherProfile } from "./unit/other-profile.ts";
import { profileRevision } from "./unit/profile-revision.ts";
import { sampleRate } from "./unit/sample-rate.ts";
import { slot } from "./unit/slot.ts";
import { tooMany } from "./unit/too-many.ts";
import { valueOffGrid } from "./unit/value-off-grid.ts";
import { wrongConnector } from "./unit/wrong-connector.ts";

/** The rule book: every rule, family by family. To add a rule: its file, and its line here. */
export const RULES: readonly Rule[] = [
  // shape
  danglingReference,
  duplicateId,
  fieldNotHere,
  missingField,
  outsideLimits,
  unknownField,
  unknownValue,
  wrongCount,
  wrongText,
  wrongType,
  // unit
  automationNotOffered,
  channelLabel,
  connectorUsedTwice,
  crossoverNotOffered,
  filterNotOffered,
  firmware,
  frequencyTooHigh,
  graphicBands,
  label,
  noSuchAbility,
  noSuchConnector,
  otherProfile,
  profileRevision,
  sampleRate,
  slot,
  tooMany,
  valueOffGrid,
  wrongConnector,
  // format
  auditoriumIncomplete,
  channelDoubled,
  channelMissing,
  channelMuted,
  channelOutside,
  channelSilent,
  dataAudible,
  foldLevel,
  headsetInAuditorium,
  lfeInMain,
  noPresetOfFormat,
  otherSource,
  positionUndefined,
  sourceLacksChannel,
  unlabelledChannel,
  unusedPosition,
  wrongChannel,
  wrongLoudspeaker,
  // crossover
  boostBelowHighPass,
  driveAndWays,
  gapBetweenWays,
  halvesDiffer,
  highPassBelowSafe,
  highPassTooShallow,
  noHighPass,
  noLowPass,
  noSubsonicFilter,
  passiveCutShort,
  subWithoutLowPass,
  surroundWithoutHighPass,
  crossoverTwinsDiffer,
  unevenSum,
  wayMuted,
  wayPassesNothing,
  wayWithoutOutput,
  waysFedApart,
  wrongPolarity,
  // time
  delayImplausible,
  lipSyncNoticed,
  lipSync,
  timePresetsApart,
  screenApart,
  subApart,
  surroundBeforeScreen,
  surroundTooLate,
  twinDelays,
  waysApart,
  // level
  asGoodAsMuted,
  eqBoost,
  graphicJump,
  headroom,
  limiterAboveFullScale,
  limiterTooSlow,
  noLimiter,
  levelPresetsApart,
  routeGain,
  trimAtEnd,
  twinEqualizers,
  twinGains,
  twinLevels,
  twinLimiterMissing,
  twinLimiters,
  twinPolarity,
  // operation
  addressIncomplete,
  cueSelectsMissingSource,
  emergencyContactShared,
  emergencyMuteNotFailSafe,
  emergencyMuteReleases,
  faderOffReference,
  faderTooLoud,
  feedElsewhere,
  gatewayElsewhere,
  headsetFeedMix,
  headsetNotRouted,
  muteWithoutEnd,
  networksOverlap,
  noEmergencyMute,
  noStartPreset,
  nonSyncPreset,
  pagingPreset,
  pagingWithoutDuck,
  presetLabelTwice,
  publicAddress,
  recallMissingPreset,
  sameSerial,
  screenNameTwice,
  siteAddress,
  siteHostname,
  startPresetMissing,
  triggerOnMissingInterface,
  triggerTwice,
  // calibration
  awayFromXCurve,
  channelNotMeasured,
  dateAhead,
  eqNotUsed,
  fewPositions,
  levelOffReference,
  lfeByMeter,
  lfeGain,
  noCalibration,
  oldCalibration,
  calibrationTwinsDiffer,
];
