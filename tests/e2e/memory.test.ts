import { expect, test } from "vitest";
import { countGraphics, expectLevel, openAndClose } from "./open-and-close.ts";
import { windows } from "./windows.ts";

const { open } = windows();

// `npm run campaign` does it 200 times.
test("opened and closed again and again, the window holds no more than before", {
  timeout: 180_000,
}, async () => {
  const page = await open({ prepare: countGraphics });
  expectLevel(await openAndClose(page, 6, true), 2);
  expect(await page.title()).toBe("Ribband");
});
