import "@fontsource-variable/inter/wght.css";
import "./look/tokens.css";
import "./look/base.css";
import { createRoot } from "react-dom/client";
import { App } from "./app.tsx";
import { followTheme } from "./look/theme.ts";

followTheme();
const root = document.getElementById("root");
if (!root) throw new Error("index.html has no element with the id root.");
createRoot(root).render(<App />);
