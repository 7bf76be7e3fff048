/** What is said of a fault that is Ribband's own and not its input's: exit code 1. */
export function ourFault(fault: unknown): string {
  const message = fault instanceof Error ? fault.message : String(fault);
  return (
    `Something went wrong inside Ribband, not in your input: ${message.replace(/\.$/, "")}. ` +
    "Please send the project file with this line to whoever keeps Ribband for you."
  );
}

/** The same where the name of the project at hand is told beside it: a crew puts that before the message. */
export const ourFaultIn = (fault: unknown): string =>
  ourFault(fault instanceof Error && fault.cause !== undefined ? fault.cause : fault);
