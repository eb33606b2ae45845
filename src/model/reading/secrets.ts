import { pointer } from "../../findings/index.ts";

/** Words in a field's name that tell of a secret. A public key is none. */
const SECRET_NAME =
  /^(password|passwd|pwd|passphrase|passcode|secret|token|community|credentials?|login|pin|key)$/;
const SECRET_PAIR = /(api|private|access|shared|secret|wpa|wep|encryption) key/;

/** Texts that carry a secret, whatever their field: an assignment to a secret's name, a key block, a sign-in in an address. */
const SECRET_TEXTS: readonly RegExp[] = [
  /\b(password|passwd|pwd|passphrase|passcode|community|secret|token|api[-_ ]?key|private[-_ ]?key)\b["']?\s*[=:]\s*\S/i,
  /-----BEGIN [A-Z ]*PRIVATE KEY-----/,
  /\b[a-z][a-z0-9+.-]*:\/\/[^/\s:@]+:[^/\s@]+@/i,
  /\beyJ[A-Za-z0-9_-]{8,}\.[A-Za-z0-9_-]{8,}\.[A-Za-z0-9_-]{8,}/,
  /\bbearer\s+[A-Za-z0-9._~+/-]{16,}/i,
];

/** What each of the patterns needs, in one quick look. */
const MAY_BE_SECRET = /[:=]|-----|eyJ|bearer/i;

/** A place that looks like a secret. The secret itself is not repeated. */
export interface SecretPlace {
  readonly pointer: string;
  readonly words: string;
}

/** The first place of a document that looks like a secret. Fields that the schema knows are no secrets by name. */
export function findSecret(document: unknown, known: ReadonlySet<string>): SecretPlace | undefined {
  const visit = (value: unknown, path: readonly (string | number)[]): SecretPlace | undefined => {
    if (typeof value === "string") {
      return MAY_BE_SECRET.test(value) && SECRET_TEXTS.some((pattern) => pattern.test(value))
        ? { pointer: pointer(...path), words: "A text here looks like a secret." }
        : undefined;
    }
    if (typeof value !== "object" || value === null) return undefined;
    const entries: readonly (readonly [string | number, unknown])[] = Array.isArray(value)
      ? value.map((item, index) => [index, item] as const)
      : Object.entries(value);
    for (const [name, item] of entries) {
      if (typeof name === "string" && !known.has(name) && isSecretName(name)) {
        return { pointer: pointer(...path, name), words: `The field '${name}' looks like a secret.` };
      }
      const found = visit(item, [...path, name]);
      if (found !== undefined) return found;
    }
    return undefined;
  };
  return visit(document, []);
}

function isSecretName(name: string): boolean {
  const words = name
    .replace(/([a-z0-9])([A-Z])/g, "$1 $2")
    .toLowerCase()
    .split(/[^a-z0-9]+/);
  if (words.includes("public")) return false;
  return words.some((word) => SECRET_NAME.test(word)) || SECRET_PAIR.test(words.join(" "));
}
