import { isCanonical, sha256 } from "../../base/canonical/index.ts";
import type { SignaturePolicy } from "../../model/index.ts";
import { unpackLines } from "./gzip-lines.ts";
import type { KeptFile } from "./kept-files.ts";
import { isDateTime } from "./records.ts";

/** What a file of policy/ says; undefined when it is not what its name says. */
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
      policy.trustedKeys.every(isKey) &&
      isCanonical(policy, line);
    return fits ? policy : undefined;
  } catch {
    return undefined;
  }
}

function isKey({ name, publicKey, retired }: SignaturePolicy["trustedKeys"][number]): boolean {
  return (
    typeof name === "string" &&
    typeof publicKey === "string" &&
    (retired === undefined || (typeof retired.from === "string" && isDateTime(retired.from)))
  );
}
