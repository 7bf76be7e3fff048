import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { readJson } from "../../core/project/read-json.ts";

const told = (text: string) => readJson(text).problems.map((each) => each.sentence);

describe("reading JSON", () => {
  it("gives what JSON.parse gives, for any value and any spacing", () => {
    fc.assert(
      fc.property(
        fc.jsonValue({ maxDepth: 6 }),
        fc.constantFrom(undefined, 1, "\t", "\r\n"),
        (value, space) => {
          const text = JSON.stringify(value, null, space);
          const read = readJson(text);
          expect(read.problems).toEqual([]);
          expect(JSON.stringify(read.value)).toBe(JSON.stringify(JSON.parse(text)));
        },
      ),
    );
  });

  it("refuses just the texts that JSON.parse refuses, for texts that are nearly JSON", () => {
    const pieces = fc.constantFrom(
      ..."{}[]:,",
      '"a"',
      '"',
      "1",
      "-",
      "0.5",
      "1e5",
      "01",
      ".5",
      "true",
      "nul",
      " ",
      "\n",
      "\\u00",
    );
    fc.assert(
      fc.property(fc.array(pieces, { maxLength: 9 }), (parts) => {
        const text = parts.join("");
        const read = readJson(text);
        if (read.problems.length > 0) expect(() => JSON.parse(text)).toThrow();
        else expect(read.value).toEqual(JSON.parse(text));
      }),
      { numRuns: 3000 },
    );
  });

  it("never throws, and says something about every text that is not JSON", () => {
    fc.assert(
      fc.property(fc.string({ unit: "binary", maxLength: 200 }), (text) => {
        const read = readJson(text);
        if (read.value === undefined) expect(read.problems).not.toEqual([]);
      }),
      { numRuns: 200 },
    );
  });

  it("knows where each field stands", () => {
    const text = '{\n  "a": [\n    1,\n    { "b": "x" }\n  ],\r\n  "odd key": null\n}';
    const { placeOf } = readJson(text);
    expect(placeOf("")).toEqual({ line: 1, column: 1 });
    expect(placeOf("a")).toEqual({ line: 2, column: 8 });
    expect(placeOf("a[0]")).toEqual({ line: 3, column: 5 });
    expect(placeOf("a[1].b")).toEqual({ line: 4, column: 12 });
    expect(placeOf('["odd key"]')).toEqual({ line: 6, column: 14 });
    expect(placeOf("a[2]")).toBeUndefined();
  });

  it("tells what stands where it should not, with line, column and field", () => {
    expect(told('{ "a": { "b": [1 2] } }')).toEqual([
      'Line 1, column 18: a.b goes on with "2"; "," or "]" was wanted.',
    ]);
    expect(told('{ "a": 1,\n  "b" 2 }')).toEqual([
      'Line 2, column 7: b goes on with "2"; ":" after the key was wanted.',
    ]);
    expect(told('{ "a": 9,1 }')).toEqual([
      'Line 1, column 10: the file goes on with "1"; a key in double quotes was wanted. A decimal figure is written with a point.',
    ]);
    expect(told('{ "a": 1 } x')).toEqual([
      'Line 1, column 12: the file goes on with "x"; the end of the text was wanted.',
    ]);
    expect(told('{ "a": "one\ntwo" }')).toEqual([
      'Line 2, column 1: a goes on with "two"; a text on one line was wanted. A closing quote may be missing.',
    ]);
    expect(told('{ "a": "\\q" }')[0]).toContain("a is ");
    expect(told('{ "a": [1, 2')).toEqual([
      'Line 1, column 13: a ends here: the text is cut short; "," or "]" was wanted.',
    ]);
  });

  it("goes on after a slip that does not hide what follows, and tells them all", () => {
    const text = '{ "a": NaN, "b": [1, 2, ], "c": wall, "a": 3, "d": 5mm, "e": True, "f": .5 }';
    expect(told(text)).toEqual([
      "Line 1, column 8: a is NaN; it must be a number, a text in double quotes, true, false or null. Something worked out this figure and failed.",
      'Line 1, column 25: b ends in a comma; remove the comma before "]".',
      'Line 1, column 33: c is wall; it must be a number, a text in double quotes, true, false or null. Write a text in double quotes: "wall".',
      "Line 1, column 39: a is written twice; it must be written once. Remove one of the two.",
      "Line 1, column 52: d is 5mm; it must be a number, a text in double quotes, true, false or null. Lengths are plain numbers in mm.",
      "Line 1, column 62: e is True; it must be a number, a text in double quotes, true, false or null. Write true, false or null in small letters.",
      "Line 1, column 73: f is .5; it must be a number, a text in double quotes, true, false or null. Write a number as in 0.5, 12 or -3.",
    ]);
  });

  it("takes a byte order mark, and keeps a key named __proto__ as a key", () => {
    const read = readJson('\uFEFF{ "__proto__": { "a": 1 } }');
    expect(read.problems).toEqual([]);
    expect(Object.keys(read.value as object)).toEqual(["__proto__"]);
    expect((read.value as { a?: number }).a).toBeUndefined();
  });

  it("stops at nesting without end, and never overflows", () => {
    expect(told("[".repeat(200000))[0]).toMatch(/is nested too deep; it must be nested at most 50 deep\.$/);
  });
});
