#!/usr/bin/env node
import { BoothkeepError } from "../src/public/boothkeep.ts";
import { processContext } from "./context.ts";
import { defectOf } from "./defect.ts";
import { run, tell } from "./program.ts";

const args = process.argv.slice(2);
const context = processContext();

/** Told once; the command goes on, so that what it has begun to write is not left half done. */
let isClosed = false;

process.stdout.on("error", (error: NodeJS.ErrnoException) => {
  if (!isClosed) tell(closedOutput(error), args, context);
  isClosed = true;
});
// Nothing can be said where the errors go; the exit code says it.
process.stderr.on("error", () => context.exit(closedOutput({ message: "" }).exitCode));
for (const event of ["uncaughtException", "unhandledRejection"]) {
  process.on(event, (error: unknown) => {
    tell(defectOf(error), args, context);
    process.exit();
  });
}

await run(args, context);

function closedOutput({ code, message }: Pick<NodeJS.ErrnoException, "code" | "message">): BoothkeepError {
  const why = code === "EPIPE" ? "whoever read it closed it" : code === "ENOSPC" ? "it is full" : message;
  return new BoothkeepError("output.closed", `The output could not be written to its end: ${why}.`, {
    next: "What the command wrote into files is there; run it again with an output that takes all of it.",
  });
}
