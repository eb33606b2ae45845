import type { Command } from "commander";
import type { Context } from "../context.ts";
import { addAudit } from "./audit.ts";
import { addBegin } from "./begin.ts";
import { addBind } from "./bind.ts";
import { addCompare } from "./compare.ts";
import { addConfirm } from "./confirm.ts";
import { addCopyOut } from "./copy-out.ts";
import { addDrift } from "./drift.ts";
import { addEntrySheet } from "./entry-sheet.ts";
import { addFind } from "./find.ts";
import { addHandoverSheet } from "./handover-sheet.ts";
import { addHistory } from "./history.ts";
import { addMap } from "./map.ts";
import { addMatchPaper } from "./match-paper.ts";
import { addMeasured } from "./measured.ts";
import { addMerge } from "./merge.ts";
import { addMigrate } from "./migrate.ts";
import { addNew } from "./new.ts";
import { addPack } from "./pack.ts";
import { addPolicy } from "./policy.ts";
import { addProve } from "./prove.ts";
import { addRead } from "./read.ts";
import { addRecord } from "./record.ts";
import { addRestore } from "./restore.ts";
import { addRules } from "./rules.ts";
import { addShow } from "./show.ts";
import { addSign } from "./sign.ts";
import { addStandard } from "./standard.ts";
import { addTable } from "./table.ts";
import { addUnpack } from "./unpack.ts";
import { addValidate } from "./validate.ts";
import { addVerify } from "./verify.ts";
import { addVisit } from "./visit.ts";
import { addWithdraw } from "./withdraw.ts";
import { addWrite } from "./write.ts";

type AddCommand = (program: Command, context: Context) => void;

/*
 * One command, one file: it declares arguments, options and help, and loads what it needs inside the action by
 * a dynamic import of the room (src/diff/compare/index.ts ...), so that `boothkeep --help` and light commands start quickly.
 * Results go to context.out (text, or one JSON document with --json), the exit code to context.exit, errors are thrown.
 */

/** The commands by name, in the groups and the order in which `boothkeep --help` lists them: the order of a job. */
const GROUPS: Readonly<Record<string, Readonly<Record<string, AddCommand>>>> = {
  "Settings in and out:": {
    new: addNew,
    read: addRead,
    write: addWrite,
    map: addMap,
    table: addTable,
    measured: addMeasured,
  },
  "Checking:": { validate: addValidate, rules: addRules },
  "Keeping:": { begin: addBegin, record: addRecord, history: addHistory, show: addShow, find: addFind },
  "On a visit:": { compare: addCompare, visit: addVisit },
  "When a unit is replaced:": {
    restore: addRestore,
    confirm: addConfirm,
    migrate: addMigrate,
    prove: addProve,
  },
  "Many screens:": { drift: addDrift, standard: addStandard, audit: addAudit },
  "Papers and packs:": {
    "entry-sheet": addEntrySheet,
    "handover-sheet": addHandoverSheet,
    "match-paper": addMatchPaper,
    pack: addPack,
    unpack: addUnpack,
  },
  "Looking after a logbook:": {
    verify: addVerify,
    merge: addMerge,
    "copy-out": addCopyOut,
    bind: addBind,
    withdraw: addWithdraw,
    sign: addSign,
    policy: addPolicy,
  },
};

/** Adds the command that is called; all of them where none is, as for help and for a misspelt name. */
export function addCommands(program: Command, context: Context, called?: string): void {
  const groups = Object.entries(GROUPS);
  const only = groups.find(([, commands]) => called !== undefined && Object.hasOwn(commands, called));
  if (only !== undefined) {
    only[1][called!]!(program, context);
    return;
  }
  for (const [title, commands] of groups) {
    program.commandsGroup(title);
    for (const add of Object.values(commands)) add(program, context);
  }
}
