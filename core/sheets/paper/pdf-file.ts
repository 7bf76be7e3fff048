import { zlibSync } from "fflate/browser";

/** An object of a PDF file by its number. */
export type Reference = `${number} 0 R`;

/**
 * Puts objects together into a PDF file (ISO 32000-1:2008, 7.5). There is no date and no identifier in it, which the
 * standard leaves open: the same objects give the same bytes.
 */
export function pdfFile() {
  const objects: (readonly Uint8Array[] | null)[] = [];
  const put = (body: readonly Uint8Array[]): Reference => `${objects.push(body)} 0 R`;
  return {
    /** A number for an object that is filled in later. */
    later(): { readonly at: Reference; readonly fill: (body: string) => void } {
      const number = objects.push(null);
      return {
        at: `${number} 0 R`,
        fill: (body) => {
          objects[number - 1] = [latin(body)];
        },
      };
    },
    add: (body: string): Reference => put([latin(body)]),
    stream(data: Uint8Array, entries = ""): Reference {
      const packed = zlibSync(data, { level: 6 });
      const head = `<< /Length ${packed.length} /Filter /FlateDecode ${entries}>>\nstream\n`;
      return put([latin(head), packed, latin("\nendstream")]);
    },
    bytes(catalog: Reference, info: Reference): Uint8Array {
      // The four high bytes tell that the file is not text.
      const parts: Uint8Array[] = [latin("%PDF-1.7\n%\u00e2\u00e3\u00cf\u00d3\n")];
      let length = parts[0].length;
      const add = (part: Uint8Array) => {
        parts.push(part);
        length += part.length;
      };
      const places = objects.map((body, i) => {
        if (body === null) throw new Error(`object ${i + 1} of the PDF was never filled in`);
        const at = length;
        add(latin(`${i + 1} 0 obj\n`));
        body.forEach(add);
        add(latin("\nendobj\n"));
        return at;
      });
      const start = length;
      const entries = places.map((at) => `${String(at).padStart(10, "0")} 00000 n \n`).join("");
      add(latin(`xref\n0 ${objects.length + 1}\n0000000000 65535 f \n${entries}`));
      add(
        latin(
          `trailer\n<< /Size ${objects.length + 1} /Root ${catalog} /Info ${info} >>\nstartxref\n${start}\n%%EOF\n`,
        ),
      );
      return joined(parts, length);
    },
  };
}

export type PdfFile = ReturnType<typeof pdfFile>;

/** Text of the first 256 characters as bytes. */
export function latin(text: string): Uint8Array {
  const bytes = new Uint8Array(text.length);
  for (let i = 0; i < text.length; i++) bytes[i] = text.charCodeAt(i);
  return bytes;
}

/** Words for people, as a PDF string of any characters. */
export function pdfText(text: string): string {
  return `<FEFF${Array.from({ length: text.length }, (_, i) => hex(text.charCodeAt(i))).join("")}>`;
}

/** Four hexadecimal digits. */
export const hex = (value: number) => value.toString(16).toUpperCase().padStart(4, "0");

function joined(parts: readonly Uint8Array[], length: number): Uint8Array {
  const bytes = new Uint8Array(length);
  let at = 0;
  for (const part of parts) {
    bytes.set(part, at);
    at += part.length;
  }
  return bytes;
}
