import { canonicalText, sha256 } from "../../base/canonical/index.ts";
import { BoothkeepError } from "../../base/errors/index.ts";
import type { SignaturePolicy } from "../../model/index.ts";
import {
  FORMAT_VERSION,
  fileName,
  keepFile,
  type Logbook,
  markOrFinding,
  POLICY,
  packLines,
  Register,
  readFolder,
  requireDateTime,
  withStore,
} from "../medium/index.ts";
import { keyFingerprint } from "../signing/index.ts";
import { type LogbookPolicy, standingGround } from "../standing/index.ts";

/** A new policy with who sets it and when. */
export interface SetPolicyOptions extends Pick<LogbookPolicy, "restoreNeedsSignature" | "trustedKeys"> {
  /** RFC 3339 with offset. */
  readonly recordedAt: string;
  readonly recordedBy: string;
}

/** The policy in force. */
export function readPolicy(logbook: Logbook): LogbookPolicy {
  return standingGround(logbook).policy;
}

/**
 * Sets a policy; the earlier ones stay on record.
 * @throws BoothkeepError usage.wrong, signing.bad-key, output.no-space, output.read-only, input.no-permission
 */
export function setPolicy({ store }: Logbook, options: SetPolicyOptions): SignaturePolicy {
  requireDateTime(options.recordedAt);
  for (const key of options.trustedKeys) keyFingerprint(Buffer.from(key.publicKey, "base64"));
  if (options.restoreNeedsSignature && options.trustedKeys.length === 0) {
    throw new BoothkeepError("usage.wrong", "The policy asks for signatures and trusts no key.", {
      next: "List at least one trusted key, or nothing could ever be restored.",
    });
  }
  return withStore(store, POLICY, () => {
    // The number of one that is missing is taken as well: the new one is to be in force.
    const stems = [...readFolder(store, POLICY).stems, ...new Register(store).policyMarks()];
    const numbers = stems.map((stem) => Number(stem.split(".")[0]));
    const policy: SignaturePolicy = {
      kind: "boothkeep.signature-policy",
      schemaVersion: FORMAT_VERSION,
      number: Math.max(0, ...numbers.filter(Number.isSafeInteger)) + 1,
      recordedAt: options.recordedAt,
      recordedBy: options.recordedBy,
      restoreNeedsSignature: options.restoreNeedsSignature,
      trustedKeys: options.trustedKeys,
    };
    const line = canonicalText(policy);
    const stem = `${policy.number}.${sha256(line)}`;
    const bytes = packLines([line]);
    const name = fileName(stem, bytes);
    keepFile(store, POLICY, name, bytes);
    markOrFinding(store, POLICY, stem, name);
    return policy;
  });
}
