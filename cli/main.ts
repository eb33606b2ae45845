#!/usr/bin/env node
import { processContext } from "./context.ts";
import { run } from "./program.ts";

// A reader that closes early (a pager, `head`) is no error of ours.
process.stdout.on("error", (error: NodeJS.ErrnoException) => {
  if (error.code === "EPIPE") process.exit();
  throw error;
});

await run(process.argv.slice(2), processContext());
