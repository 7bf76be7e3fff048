import "@fontsource-variable/inter/wght.css";
import "./look/tokens.css";
import "./look/base.css";
import { createRoot } from "react-dom/client";
import { App } from "./app.tsx";
import { makeHost } from "./document/host/make-host.ts";
import { followTheme } from "./look/theme.ts";

followTheme();
const root = document.getElementById("root");
if (!root) throw new Error("index.html has no element with the id root.");
const app = createRoot(root);
makeHost().then(
  (host) => app.render(<App host={host} />),
  (error: unknown) =>
    app.render(<p className="alone">{error instanceof Error ? error.message : String(error)}</p>),
);
