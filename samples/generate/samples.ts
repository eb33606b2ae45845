import { curlew24 } from "./complete/profile.ts";
import { ternQuay3 } from "./complete/screen.ts";
import { dunlin16Export } from "./exports/dunlin-16.ts";
import { dunlin16Sections } from "./exports/dunlin-16-sections.ts";
import { skarn30Export } from "./exports/skarn-30.ts";
import { whimbrel32Export } from "./exports/whimbrel-32.ts";
import { whimbrel32ServiceFile } from "./exports/whimbrel-32-service.ts";
import { dunlin16Map } from "./maps/dunlin-16.ts";
import { dunlin16SectionsMap } from "./maps/dunlin-16-sections.ts";
import { skarn30Map } from "./maps/skarn-30.ts";
import { whimbrel32Map } from "./maps/whimbrel-32.ts";
import { whimbrel32ServiceMap } from "./maps/whimbrel-32-service.ts";
import { lanternMill1Measured } from "./measurements/lantern-mill-1.ts";
import { dunlin16 } from "./profiles/dunlin-16.ts";
import { skarn30 } from "./profiles/skarn-30.ts";
import { skarn36 } from "./profiles/skarn-36.ts";
import { whimbrel32 } from "./profiles/whimbrel-32.ts";
import { copperHeron1 } from "./screens/copper-heron-1.ts";
import { copperHeron2 } from "./screens/copper-heron-2.ts";
import { lanternMill1 } from "./screens/lantern-mill-1.ts";
import { lanternMill4 } from "./screens/lantern-mill-4.ts";
import { lanternMill1Autumn } from "./visits/lantern-mill-1-autumn.ts";

/** Every generated sample by its file, as a path below samples/. */
export function allSamples(): Readonly<Record<string, object>> {
  return {
    "complete/profile.json": curlew24,
    "complete/screen.json": ternQuay3(),
    "maps/dunlin-16.json": dunlin16Map,
    "maps/dunlin-16-sections.json": dunlin16SectionsMap,
    "maps/skarn-30.json": skarn30Map,
    "maps/whimbrel-32.json": whimbrel32Map,
    "maps/whimbrel-32-service.json": whimbrel32ServiceMap,
    "profiles/dunlin-16.json": dunlin16,
    "profiles/skarn-30.json": skarn30,
    "profiles/skarn-36.json": skarn36,
    "profiles/whimbrel-32.json": whimbrel32,
    "screens/copper-heron/screen-1.json": copperHeron1(),
    "screens/copper-heron/screen-2.json": copperHeron2(),
    "screens/lantern-mill/screen-1.json": lanternMill1(),
    "screens/lantern-mill/screen-4.json": lanternMill4(),
    "visits/lantern-mill/screen-1-autumn.json": lanternMill1Autumn(),
  };
}

/** Every generated file of another kind by its name, as bytes: the exports of the units, what an analyzer wrote. */
export function allExports(): Readonly<Record<string, Uint8Array>> {
  return {
    "exports/copper-heron-1.xml": Buffer.from(skarn30Export(copperHeron1()), "utf8"),
    "exports/copper-heron-2.csv": Buffer.from(whimbrel32Export(copperHeron2()), "latin1"),
    "exports/copper-heron-2.json": Buffer.from(`\ufeff${whimbrel32ServiceFile(copperHeron2())}`, "utf16le"),
    "exports/lantern-mill-1.xml": Buffer.from(skarn30Export(lanternMill1()), "utf8"),
    "exports/lantern-mill-4.ini": Buffer.from(dunlin16Sections(lanternMill4()), "utf8"),
    "exports/lantern-mill-4.txt": Buffer.from(dunlin16Export(lanternMill4()), "utf8"),
    "measurements/lantern-mill-1.csv": Buffer.from(lanternMill1Measured(), "utf8"),
  };
}
