/** Runs in a worker thread: computes one EQ fit after the other. */
import { fitEqualizer } from "../../src/migrate/index.ts";
import { serve } from "./pool.ts";

serve(fitEqualizer);
