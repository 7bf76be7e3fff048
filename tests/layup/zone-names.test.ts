import { expect, it } from "vitest";
import { zoneName } from "../../core/layup/zone-names.ts";

const none = new Set<string>();

it("makes an automatic zone's id from what it lies on", () => {
  expect(zoneName("band", "foot", none)).toBe("band-foot");
  expect(zoneName("band", "steps/riser-1|steps/tread-2#2", none)).toBe("band-steps-riser-1-steps-tread-2-2");
  expect(zoneName("ribs", "side-3", none)).toBe("ribs-side-3");
});

it("passes over ids that are taken, and keeps long ones apart", () => {
  expect(zoneName("pad", "ledge/top", new Set(["pad-ledge-top"]))).toBe("pad-ledge-top-2");
  const long = (end: string) => `${"very-long-feature-name-".repeat(3)}${end}/top`;
  const [a, b] = ["a", "b"].map((end) => zoneName("gussets", long(end), none));
  expect(a).not.toBe(b);
  for (const id of [a, b]) expect(id).toMatch(/^[a-z0-9][a-z0-9-]{0,59}$/);
});
