import { canonicalText, sha256 } from "../../base/canonical/index.ts";
import { BoothkeepError } from "../../base/errors/index.ts";
import type { Finding } from "../../base/findings/index.ts";
import type { SignaturePolicy } from "../../model/index.ts";
import { keyFingerprint, type TrustedKey } from "../signing/index.ts";
import { keepFile } from "./durable-file.ts";
import { withStore } from "./faults.ts";
import { packLines, unpackLines } from "./gzip-lines.ts";
import { type KeptFile, readFolder } from "./kept-files.ts";
import { fileName, POLICY } from "./layout.ts";
import { type Logbook, requireDateTime } from "./logbook.ts";
import { markOrFinding } from "./record.ts";
import { FORMAT_VERSION } from "./records.ts";

/** The policy in force. */
export interface LogbookPolicy {
  readonly restoreNeedsSignature: boolean;
  readonly trustedKeys: readonly TrustedKey[];
  readonly findings: readonly Finding[];
}

export interface SetPolicyOptions extends Omit<LogbookPolicy, "findings"> {
  /** RFC 3339 with offset. */
  readonly recordedAt: string;
  readonly recordedBy: string;
}

/**
 * The policy in force: the last one that was set. Where two were set apart, a signature is needed if either says so,
 * and only keys that both list are trusted; where a policy is damaged, a signature is needed.
 *
 * A policy guards against mistakes and against packs from elsewhere. Whoever may write to the folder may also change
 * the policy: keep a copy of the fingerprints outside.
 */
export function readPolicy({ store }: Logbook): LogbookPolicy {
  const { files, damaged, findings } = withStore(store, POLICY, () => readFolder(store, POLICY));
  const read = files.map(readPolicyFile);
  const policies = read.filter((policy) => policy !== undefined);
  const last = Math.max(0, ...policies.map((policy) => policy.number));
  const inForce = policies.filter((policy) => policy.number === last);
  const unreadable = damaged.length > 0 || policies.length < read.length;
  const [first, ...others] = inForce;
  return {
    restoreNeedsSignature: unreadable || inForce.some((policy) => policy.restoreNeedsSignature),
    trustedKeys: (first?.trustedKeys ?? []).filter((key) =>
      others.every((policy) => policy.trustedKeys.some((other) => other.publicKey === key.publicKey)),
    ),
    findings,
  };
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
    const numbers = readFolder(store, POLICY).stems.map((stem) => Number(stem.split(".")[0]));
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

/** @internal What a file of policy/ says; undefined when it is not what its name says. */
export function readPolicyFile(file: KeptFile): SignaturePolicy | undefined {
  const [line, ...more] = unpackLines(file.bytes) ?? [];
  if (line === undefined || more.length > 0) return undefined;
  const [number, wanted] = file.stem.split(".");
  if (sha256(line) !== wanted) return undefined;
  try {
    const policy = JSON.parse(line) as SignaturePolicy;
    const fits =
      policy.kind === "boothkeep.signature-policy" &&
      policy.schemaVersion.startsWith("1.") &&
      String(policy.number) === number &&
      typeof policy.restoreNeedsSignature === "boolean" &&
      policy.trustedKeys.every((key) => typeof key.name === "string" && typeof key.publicKey === "string");
    return fits ? policy : undefined;
  } catch {
    return undefined;
  }
}
