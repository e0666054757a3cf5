/**
 * What a label's QR code holds: the code itself and nothing else, so that any reader shows what is printed beside it.
 * Small letters stay small: two codes may differ in them alone.
 */
export const labelPayload = (code: string): string => code.normalize('NFC').trim();
