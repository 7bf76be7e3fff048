import { useEffect } from "react";
import { toast } from "sonner";
import type { Host, Settings } from "../document/host/host.ts";
import { session } from "../document/session.ts";

/** Takes lengths and theme from the machine's settings, and keeps them there when they change. */
export function useKeptSettings(host: Host): void {
  useEffect(() => {
    let settings: Settings | null = null;
    const tell = (error: unknown) => toast.error(error instanceof Error ? error.message : String(error));
    host.settings.get().then((kept) => {
      settings = kept;
      session.setState({ lengths: kept.lengths, theme: kept.theme });
    }, tell);
    return session.subscribe(({ lengths, theme }) => {
      if (!settings || (settings.lengths === lengths && settings.theme === theme)) return;
      settings = { ...settings, lengths, theme };
      host.settings.set(settings).catch(tell);
    });
  }, [host]);
}
