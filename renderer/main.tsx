import "@fontsource-variable/inter/wght.css";
import "./look/tokens.css";
import "./look/base.css";
import { createRoot } from "react-dom/client";
import { App } from "./app.tsx";
import { makeHost } from "./document/host/make-host.ts";
import { Broken } from "./frame/broken.tsx";
import { followTheme } from "./look/theme.ts";
import { sortNotes } from "./scene/three-notes.ts";

followTheme();
sortNotes();
const root = document.getElementById("root");
if (!root) throw new Error("index.html has no element with the id root.");
const app = createRoot(root);
makeHost().then(
  (host) =>
    app.render(
      <Broken>
        <App host={host} />
      </Broken>,
    ),
  (error: unknown) =>
    app.render(<p className="alone">{error instanceof Error ? error.message : String(error)}</p>),
);
