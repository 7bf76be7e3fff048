/** Who waits for a lot: hears what is being done, and may ask for what there is by now. */
export interface Watch {
  readonly onStage: (stage: string) => void;
  /** Asked often: whether to end the piece of work at hand with the best so far. */
  readonly stop: () => boolean;
}
