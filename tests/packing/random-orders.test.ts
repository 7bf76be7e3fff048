import { expect, test } from "vitest";
import { packMarker } from "../../core/packing/pack-marker.ts";
import { seedCount } from "../house/seeds.ts";
import { randomOrder } from "./random-orders.ts";
import { validate } from "./validate.ts";

test.each(["hand", "table"] as const)(
  "random orders, %s cut: every plan is whole, apart and within its stock",
  (way) => {
    for (let seed = 1; seed <= seedCount(12); seed++) {
      const order = randomOrder(seed, way);
      const packed = packMarker(order, { until: (count) => count >= 120 });
      try {
        if (!packed.ok) throw new Error(packed.why);
        validate(order, packed.plan);
      } catch (error) {
        throw new Error(`seed ${seed}`, { cause: error });
      }
      expect(packed.ok).toBe(true);
    }
  },
);
