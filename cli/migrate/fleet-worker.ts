/** Runs in a worker thread: surveys or settles one screen of many after the other. */
import { workerData } from "node:worker_threads";
import { type FleetGround, fleetWork, type Settled, type Settlement, type Survey } from "./fleet-work.ts";
import { serve } from "./pool.ts";

const work = fleetWork(workerData as FleetGround);

serve<string | Settlement, Survey | Settled>((task) =>
  typeof task === "string" ? work.survey(task) : work.settle(task),
);
