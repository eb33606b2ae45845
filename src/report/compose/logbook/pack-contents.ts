import type { SignatureVerdict } from "../../../logbook/signing/index.ts";
import type { PackManifest } from "../../../model/index.ts";
import { groupedDigits } from "../../../words/index.ts";
import { cautionBlock } from "../../cautions.ts";
import type { ReportDocument } from "../../document.ts";
import { verdictWords } from "./entry.ts";

/** What a handover pack is and holds, after everything in it was checked. */
export function packReport(
  manifest: PackManifest,
  signature: SignatureVerdict | { readonly kind: "unsigned" },
): ReportDocument {
  return {
    title: "Handover pack",
    subtitle: `${manifest.siteId}, ${manifest.screenId}`,
    blocks: [
      cautionBlock(),
      {
        kind: "facts",
        pairs: [
          ["Made", `${manifest.createdAt} by ${manifest.createdBy}`],
          ["Unit", `${manifest.unit.profileId}, serial number ${manifest.unit.serial}`],
          ["Signed", verdictWords(signature)],
          ["Configuration", groupedDigits(manifest.configuration)],
          ...(manifest.entry === undefined ? [] : [["Entry id", groupedDigits(manifest.entry)] as const]),
        ],
      },
      {
        kind: "table",
        caption: "Files; sizes and SHA-256 as the manifest says",
        rowNames: true,
        columns: [{ header: "File" }, { header: "Holds" }, { header: "Bytes", align: "end" }],
        rows: manifest.files.map(({ name, role, label, sizeBytes }) => [
          name,
          label ?? role.replaceAll("-", " "),
          String(sizeBytes),
        ]),
      },
    ],
  };
}
