import { type Session, session } from "../document/session.ts";

const dark = matchMedia("(prefers-color-scheme: dark)");

/** The theme that a choice comes to on this machine. */
export const themeOf = ({ theme }: Pick<Session, "theme">): "paper" | "slate" =>
  theme === "system" ? (dark.matches ? "slate" : "paper") : theme;

/** Keeps the page in the theme chosen, and calls back when it changes. */
export function followTheme(): void {
  const put = () => {
    document.documentElement.dataset.theme = themeOf(session.getState());
  };
  put();
  session.subscribe(put);
  dark.addEventListener("change", () => {
    put();
    session.setState({});
  });
}
