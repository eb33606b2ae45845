import { counted } from "../../../words/index.ts";
import type { Explainer } from "../explainer.ts";
import { subjectAt } from "../scene.ts";
import { within } from "../select.ts";

/** The measurements that the settings rest on: one finding, whatever was measured anew. */
export const explainCalibration: Explainer = (scene, open) => {
  const causes = within(open, "calibration");
  if (causes.length === 0) return { drafts: [] };
  const [before, after] = [scene.before.calibration, scene.after.calibration];
  const renewed = before !== undefined && after !== undefined && before.date !== after.date;
  const words =
    before === undefined
      ? `Measurements of ${after?.date} were added.`
      : after === undefined
        ? `The measurements of ${before.date} are gone.`
        : renewed
          ? `Measured anew on ${after.date} (before: ${before.date}).`
          : `The record of ${after.date} was edited: ${counted(causes.length, "value differs", "values differ")}.`;
  return {
    drafts: [
      {
        code: renewed ? "calibration/renewed" : "calibration/changed",
        kind: "record",
        severity: "advice",
        subject: subjectAt(scene, ["calibration"]),
        words,
        ...(before === undefined ? {} : { before: before.date }),
        ...(after === undefined ? {} : { after: after.date }),
        causes,
      },
    ],
  };
};
