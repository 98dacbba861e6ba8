/** What browsers and Node share and ES2023 lacks; src/io may use no other global of either. */

declare class TextEncoder {
  encode(text?: string): Uint8Array<ArrayBuffer>;
}

declare class TextDecoder {
  constructor(label?: string, options?: { readonly fatal?: boolean });
  decode(bytes?: Uint8Array): string;
}
