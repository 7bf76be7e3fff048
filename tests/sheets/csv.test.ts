import { fc, test as propertyTest } from "@fast-check/vitest";
import { describe, expect, test } from "vitest";
import { printCsv } from "../../core/sheets/csv.ts";
import { readCsv } from "./read-csv.ts";

const cellOf = (value: string | number) =>
  printCsv(["head"], [[value]])
    .replace(/^head\r\n/, "")
    .slice(0, -2);

describe("words that a spreadsheet would run", () => {
  // OWASP, "CSV Injection": cells that begin with = + - @, tab, carriage return or line feed, and their full-width forms.
  test.each([
    "=1+1",
    "+1",
    "-2+3",
    "@SUM(A1)",
    "\t=1",
    "\r=1",
    "\n=1",
    "＝1+1",
    '=HYPERLINK("http://example.invalid","x")',
    "-12.5",
  ])("%j is shown, not run", (word) => {
    const [, [cell]] = readCsv(printCsv(["head"], [[word]]));
    expect(cell).toBe(`'${word}`);
    expect(cellOf(word)).toMatch(/^"?'/);
  });

  test.each(["foot/1a", "a=b", "rib - left", "1+1", ""])("%j is left as it is", (word) => {
    expect(cellOf(word)).toBe(word);
  });
});

test("numbers stay numbers, below nought too", () => {
  expect(cellOf(-12.5)).toBe("-12.5");
  expect(cellOf(0)).toBe("0");
  expect(cellOf(2500.1)).toBe("2500.1");
  for (const wrong of [Number.NaN, Infinity]) expect(() => cellOf(wrong)).toThrow(RangeError);
});

test("quotes what needs quoting", () => {
  expect(cellOf("a,b")).toBe('"a,b"');
  expect(cellOf('2" tape')).toBe('"2"" tape"');
  expect(cellOf("two\nlines")).toBe('"two\nlines"');
  expect(cellOf(" edge")).toBe('" edge"');
});

test("no file carries a mark of its code, whatever is in it", () => {
  expect(printCsv(["name"], [["Woven roving"]])).toBe("name\r\nWoven roving\r\n");
  expect(printCsv(["name"], [["600 g/m²"]])).toBe("name\r\n600 g/m²\r\n");
});

const word = fc.string({ unit: fc.constantFrom(..."abc=+-@\",;\r\n\t 'é"), maxLength: 8 });

propertyTest.prop([
  fc.array(fc.tuple(word, fc.double({ noNaN: true, noDefaultInfinity: true }), word), { minLength: 1 }),
])("whatever is written is read back, but for the guard's apostrophe", (rows) => {
  const [heads, ...back] = readCsv(printCsv(["a", "b", "c"], rows));
  expect(heads).toEqual(["a", "b", "c"]);
  expect(back).toHaveLength(rows.length);
  rows.forEach(([first, number, last], i) => {
    for (const [written, read] of [
      [first, back[i][0]],
      [last, back[i][2]],
    ]) {
      expect([written, `'${written}`]).toContain(read);
      expect(read).not.toMatch(/^[=+\-@\t\r\n]/);
    }
    expect(Number(back[i][1])).toBe(number + 0);
  });
});
