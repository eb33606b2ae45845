import { type Trail, trailPointer } from "./trail.ts";

/** Words in a field's name that tell of a secret. A public key is none. */
const SECRET_NAME =
  /^(password|passwd|pwd|passphrase|passcode|secret|token|community|credentials?|login|pin|key)$/;
const SECRET_PAIR = /(api|private|access|shared|secret|wpa|wep|encryption) key/;

/** Texts that carry a secret, whatever their field: an assignment to a secret's name, a key block, a sign-in in an address. */
const SECRET_TEXTS: readonly RegExp[] = [
  /\b(password|passwd|pwd|passphrase|passcode|community|secret|token|api[-_ ]?key|private[-_ ]?key)\b["']?\s*[=:]\s*\S/i,
  /-----BEGIN [A-Z ]*PRIVATE KEY-----/,
  /[a-z0-9+.-]:\/\/[^/\s:@]+:[^/\s@]+@/i,
  /\bbearer\s+[A-Za-z0-9._~+/-]{16}/i,
];

const TOKEN_HEAD = /(?<![A-Za-z0-9_])eyJ[A-Za-z0-9_-]{8}/;
const TOKEN_PART = 8;

/** Three parts of a signed token (RFC 7519) with points between, the first one a JSON object in base64. */
function hasToken(text: string): boolean {
  if (!text.includes("eyJ")) return false;
  return text.split(/[^A-Za-z0-9_.-]/).some((run) => {
    const parts = run.split(".");
    return parts.some(
      (part, index) =>
        TOKEN_HEAD.test(part) &&
        (parts[index + 1]?.length ?? 0) >= TOKEN_PART &&
        (parts[index + 2]?.length ?? 0) >= TOKEN_PART,
    );
  });
}

/** What each of the patterns needs, in one quick look. */
const MAY_BE_SECRET = /[:=]|-----|eyJ|bearer/i;

/** A place that looks like a secret. The secret itself is not repeated. */
export interface SecretPlace {
  readonly pointer: string;
  readonly words: string;
}

/** The first place of a document that looks like a secret. Fields that the schema knows are no secrets by name. */
export function findSecret(document: unknown, known: ReadonlySet<string>): SecretPlace | undefined {
  const harmless = new Set(known);
  const inside = (
    name: string | number,
    item: unknown,
    trail: Trail | undefined,
  ): SecretPlace | undefined => {
    if (typeof item === "string") {
      return MAY_BE_SECRET.test(item) &&
        (SECRET_TEXTS.some((pattern) => pattern.test(item)) || hasToken(item))
        ? { pointer: trailPointer(trail, name), words: "A text here looks like a secret." }
        : undefined;
    }
    return typeof item === "object" && item !== null ? visit(item, { parent: trail, key: name }) : undefined;
  };
  const visit = (value: object, trail: Trail | undefined): SecretPlace | undefined => {
    if (Array.isArray(value)) {
      for (let index = 0; index < value.length; index += 1) {
        const found = inside(index, value[index], trail);
        if (found !== undefined) return found;
      }
      return undefined;
    }
    for (const [name, item] of Object.entries(value)) {
      if (!harmless.has(name)) {
        if (isSecretName(name)) {
          return { pointer: trailPointer(trail, name), words: `The field '${name}' looks like a secret.` };
        }
        harmless.add(name);
      }
      const found = inside(name, item, trail);
      if (found !== undefined) return found;
    }
    return undefined;
  };
  return typeof document === "object" && document !== null ? visit(document, undefined) : undefined;
}

function isSecretName(name: string): boolean {
  const words = name
    .replace(/([a-z0-9])([A-Z])/g, "$1 $2")
    .toLowerCase()
    .split(/[^a-z0-9]+/);
  if (words.includes("public")) return false;
  return words.some((word) => SECRET_NAME.test(word)) || SECRET_PAIR.test(words.join(" "));
}
