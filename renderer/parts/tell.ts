import { toast } from "sonner";

/** Tells what went wrong at the foot of the window, once and until it is read: what somebody must know is not taken away by a clock. */
export function tell(error: unknown): void {
  const sentence = error instanceof Error ? error.message : String(error);
  toast.error(sentence, { id: sentence, duration: Number.POSITIVE_INFINITY, closeButton: true });
}
