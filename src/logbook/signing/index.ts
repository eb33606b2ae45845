export { type KeyPair, keyFingerprint, keyPairFromSeed, publicKeyBytes } from "./keys.ts";
export {
  type DocumentSignature,
  judgeSignature,
  type SignatureVerdict,
  signDocument,
  type TrustedKey,
} from "./signature.ts";
