/** An equalizer expressed by another unit's filters. */
export {
  type Refit,
  type RefitFilter,
  type RefitOptions,
  type RefitSource,
  type RefitTarget,
  refitEqualizer,
} from "../migrate/refit/index.ts";
