import { BoothkeepError } from "../../base/errors/index.ts";
import { type FileStore, faultCode } from "./file-store.ts";

const NO_SPACE = new Set(["ENOSPC", "EDQUOT"]);
const NO_PERMISSION = new Set(["EACCES", "EPERM"]);

/** What a failed operation of a store means, in words. */
export function storeError(error: unknown, store: FileStore, path: string): BoothkeepError {
  if (error instanceof BoothkeepError) return error;
  const code = faultCode(error);
  // Without a POSIX code it is no fault of the medium but a defect of ours.
  if (code === "" || code.startsWith("ERR_")) throw error;
  const place = { file: path === "" ? store.label : `${store.label}/${path}` };
  if (NO_SPACE.has(code)) {
    return new BoothkeepError("output.no-space", "There is no room left; nothing of this record was kept.", {
      place,
      next: "Make room on the medium, then do it again. What was recorded before is not touched.",
      cause: error,
    });
  }
  if (code === "EROFS") {
    return new BoothkeepError("output.read-only", "The logbook is on a medium that cannot be written.", {
      place,
      next: "Take off the write protection, or copy the logbook's folder to this computer and record there.",
      cause: error,
    });
  }
  if (NO_PERMISSION.has(code)) {
    return new BoothkeepError("input.no-permission", "The system does not allow access to the logbook.", {
      place,
      next: "Check the permissions of the folder, or close the program that holds the file (a virus scanner, a sync client).",
      cause: error,
    });
  }
  if (code === "EBUSY") {
    return new BoothkeepError("output.failed", "Another program holds a file of the logbook.", {
      place,
      next: "Close what may hold it (a virus scanner, a sync client, an editor), then do it again.",
      cause: error,
    });
  }
  return new BoothkeepError("output.failed", `The medium failed (${code}).`, {
    place,
    next: "Check that the medium is still there, then do it again; 'verify' says what can be trusted.",
    data: { fault: code },
    cause: error,
  });
}

/** Runs operations of a store; what fails is thrown in words. */
export function withStore<T>(store: FileStore, path: string, operations: () => T): T {
  try {
    return operations();
  } catch (error) {
    throw storeError(error, store, path);
  }
}
