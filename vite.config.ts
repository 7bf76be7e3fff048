import react from "@vitejs/plugin-react";
import { defineConfig } from "vite";

/**
 * Builds the window: renderer → out/window. Relative addresses, so that the desktop's own protocol and a loopback server can
 * both serve it; nothing inline, so that a strict content security policy holds.
 */
export default defineConfig({
  root: "renderer",
  base: "./",
  plugins: [react()],
  build: {
    outDir: "../out/window",
    emptyOutDir: true,
    target: "chrome130",
    assetsInlineLimit: 0,
    modulePreload: { polyfill: false },
    chunkSizeWarningLimit: 3000,
  },
  worker: { format: "es" },
});
