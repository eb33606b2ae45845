import type { Finding } from "../../base/findings/index.ts";
import {
  type Logbook,
  logbookFinding,
  POLICY,
  type Register,
  readFolder,
  readPolicyFile,
  withStore,
} from "../medium/index.ts";
import type { TrustedKey } from "../signing/index.ts";

/** The policy in force. */
export interface LogbookPolicy {
  readonly restoreNeedsSignature: boolean;
  readonly trustedKeys: readonly TrustedKey[];
  /**
   * The policy in force may be one that is missing, damaged or not understood: nobody can tell which signatures are asked
   * for, nor which keys are trusted.
   */
  readonly isUnknown: boolean;
  readonly findings: readonly Finding[];
}

/**
 * The policy in force: the last one that was set. Where two were set apart, a signature is needed if either says so,
 * and only keys that both list are trusted; where the last one is damaged or missing, nothing is trusted.
 *
 * A policy guards against mistakes and against packs from elsewhere. Whoever may write to the folder may also change
 * the policy: keep a copy of the fingerprints outside.
 */
export function judgePolicy({ store }: Logbook, register: Register): LogbookPolicy {
  const marks = register.policyMarks();
  const { files, damaged, unreadable, stems, findings } = withStore(store, POLICY, () =>
    readFolder(store, POLICY),
  );
  const read = files.map((file) => ({ file, policy: readPolicyFile(file) }));
  const policies = read.map(({ policy }) => policy).filter((policy) => policy !== undefined);
  const last = Math.max(0, ...policies.map((policy) => policy.number));
  const inForce = policies.filter((policy) => policy.number === last);
  const notUnderstood = read.filter(({ policy }) => policy === undefined).map(({ file }) => file);
  const missing = marks.filter((mark) => !stems.includes(mark) && register.isStillMarked(POLICY, mark));
  const unseen = [
    ...[...damaged, ...unreadable, ...notUnderstood]
      .map(({ stem }) => stem)
      // A whole copy under another digest says the same.
      .filter((stem) => !read.some(({ file, policy }) => file.stem === stem && policy !== undefined)),
    ...missing,
  ];
  const isUnknown = unseen.some((stem) => !(Number(stem.split(".")[0]) < last));
  const [first, ...others] = inForce;
  return {
    restoreNeedsSignature: isUnknown || inForce.some((policy) => policy.restoreNeedsSignature),
    trustedKeys: isUnknown
      ? []
      : (first?.trustedKeys ?? []).flatMap((key) => {
          const all = [key, ...others.flatMap((policy) => policy.trustedKeys.filter(isKey(key)))];
          return all.length === inForce.length ? [mostCautious(all)] : [];
        }),
    isUnknown,
    findings: [
      ...findings,
      ...notUnderstood.map(({ path }) => logbookFinding("logbook/not-understood", path)),
      ...missing.map((stem) => logbookFinding("logbook/missing-file", `${POLICY}/${stem}`)),
    ],
  };
}

const isKey = (key: TrustedKey) => (other: TrustedKey) => other.publicKey === key.publicKey;

/** Of a key that two policies list: the one that retires it earlier, or for good. */
function mostCautious(keys: readonly TrustedKey[]): TrustedKey {
  return keys.reduce((a, b) => {
    if (a.retired === undefined || b.retired === undefined) return a.retired === undefined ? b : a;
    if (a.retired.stolen === true || b.retired.stolen === true) return a.retired.stolen === true ? a : b;
    return Date.parse(a.retired.from) <= Date.parse(b.retired.from) ? a : b;
  });
}
