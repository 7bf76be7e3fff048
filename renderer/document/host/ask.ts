import type { z } from "zod";
import { type Answered, type Channels, HostError, outcome } from "./contract.ts";

/** Bears a question to the machine and brings back what it said, unchecked. */
export type Carrier = (channel: string, question: unknown) => Promise<unknown>;

/** Asks on a channel. Rejects with a HostError when the machine refuses or cannot be reached. */
export type Ask<C extends Channels> = <Name extends keyof C & string>(
  name: Name,
  question?: z.input<C[Name]["ask"]>,
) => Promise<Answered<C, Name>>;

export function asking<C extends Channels>(channels: C, carry: Carrier): Ask<C> {
  return async (name, question) =>
    answerOf(channels[name], await carry(name, question)) as Answered<C, typeof name>;
}

/**
 * What was said on a channel. Both ends check what they hear: an answer that is not as agreed is a fault.
 * @throws HostError when the machine refused
 */
export function answerOf<A>(channel: { readonly answer: z.ZodType<A> }, said: unknown): A {
  const heard = outcome.parse(said);
  if (!heard.ok) throw new HostError(heard.sentence);
  return channel.answer.parse(heard.value);
}
