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
 * What was said on a channel. Both ends check what they hear.
 * @throws HostError when the machine refused, or said what was not agreed (another version of it, perhaps)
 */
export function answerOf<A>(channel: { readonly answer: z.ZodType<A> }, said: unknown): A {
  const heard = understood(outcome, said);
  if (!heard.ok) throw new HostError(heard.sentence);
  return understood(channel.answer, heard.value);
}

function understood<T>(shape: z.ZodType<T>, said: unknown): T {
  const { success, data, error } = shape.safeParse(said);
  if (success) return data;
  const [{ path, message }] = error.issues;
  throw new HostError(
    `Ribband's own answer is not as agreed (${path.join(".")}: ${message}). Close it and start it again.`,
  );
}
