import { Button, Dialog, Heading, Modal, ModalOverlay } from "react-aria-components";
import styles from "./question.module.css";

export interface Answer {
  readonly name: string;
  readonly onPress: () => void;
  /** The answer that is meant most often. */
  readonly first?: boolean;
}

/** A question that must be answered before one goes on; Escape answers as `onLeave` says. */
export function Question(props: {
  readonly title: string;
  readonly children: string;
  readonly answers: readonly Answer[];
  readonly onLeave: () => void;
}) {
  const { title, children, answers, onLeave } = props;
  return (
    <ModalOverlay
      className={styles.veil}
      isOpen
      onOpenChange={(open) => {
        if (!open) onLeave();
      }}
    >
      <Modal className={styles.sheet}>
        <Dialog className={styles.dialog} role="alertdialog">
          <Heading slot="title">{title}</Heading>
          <p>{children}</p>
          <div className={styles.answers}>
            {answers.map(({ name, onPress, first }) => (
              <Button
                key={name}
                className={styles.answer}
                data-first={first || undefined}
                autoFocus={first}
                onPress={onPress}
              >
                {name}
              </Button>
            ))}
          </div>
        </Dialog>
      </Modal>
    </ModalOverlay>
  );
}
