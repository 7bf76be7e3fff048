import { useEffect, useState } from "react";
import type { Host, Settings } from "../document/host/host.ts";
import { session } from "../document/session.ts";
import { tell } from "../parts/tell.ts";

/**
 * Takes lengths, theme and the sizes of panels from the machine's settings, and keeps them there when they change. False until
 * they were read: panels take their size when they come up.
 */
export function useKeptSettings(host: Host): boolean {
  const [read, setRead] = useState(false);
  useEffect(() => {
    let settings: Settings | null = null;
    host.settings
      .get()
      .then((kept) => {
        settings = kept;
        session.setState({ lengths: kept.lengths, theme: kept.theme, panels: kept.panels });
      }, tell)
      .finally(() => setRead(true));
    return session.subscribe(({ lengths, theme, panels }) => {
      if (!settings) return;
      if (settings.lengths === lengths && settings.theme === theme && settings.panels === panels) return;
      settings = { ...settings, lengths, theme, panels };
      host.settings.set(settings).catch(tell);
    });
  }, [host]);
  return read;
}
