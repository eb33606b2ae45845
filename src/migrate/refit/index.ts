export type { Refit, RefitFilter, RefitOptions, RefitSource, RefitTarget } from "./equalizer.ts";
export { refitEqualizer } from "./refit-equalizer.ts";
