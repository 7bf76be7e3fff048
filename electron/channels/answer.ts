import {
  type Asked,
  type Channels,
  type Handlers,
  HostError,
  type Outcome,
} from "../../renderer/document/host/contract.ts";
/** What a carrier calls for every question that it let in. */
export type Answer = (name: string, asked: unknown) => Promise<Outcome>;

/**
 * Puts handlers behind their channels. Whatever comes in, what goes out is an outcome: a question that does not fit its
 * channel is refused with the field and what is wrong with it, and does not reach the handler.
 * @param report is told of faults in our own code, which the page hears of only in general words
 */
export function answering<C extends Channels>(
  channels: C,
  handlers: Handlers<C>,
  report: (error: unknown) => void,
): Answer {
  return async (name, asked) => {
    if (!Object.hasOwn(channels, name))
      return { ok: false, sentence: `There is no channel "${name.slice(0, 40)}".` };
    const checked = channels[name].ask.safeParse(asked);
    if (!checked.success) {
      const [issue] = checked.error.issues;
      const field = [name, ...issue.path.map(String)].join(".");
      return { ok: false, sentence: `The question "${field}" is not as agreed: ${issue.message}.` };
    }
    try {
      return { ok: true, value: await handlers[name](checked.data as Asked<C, string>) };
    } catch (error) {
      if (error instanceof HostError) return { ok: false, sentence: error.message };
      report(error);
      return {
        ok: false,
        sentence: `Ribband failed at "${name}": ${error instanceof Error ? error.message : error}`,
      };
    }
  };
}
