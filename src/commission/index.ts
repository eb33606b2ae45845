export { type BuildInput, type BuiltConfiguration, buildConfiguration } from "./build.ts";
