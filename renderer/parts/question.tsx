import { Button, Heading } from "react-aria-components";
import answersStyles from "./answers.module.css";
import { Overlay } from "./overlay.tsx";
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
    <Overlay role="alertdialog" onLeave={onLeave}>
      <Heading slot="title">{title}</Heading>
      <p className={styles.why}>{children}</p>
      <div className={answersStyles.answers}>
        {answers.map(({ name, onPress, first }) => (
          <Button
            key={name}
            className={answersStyles.answer}
            data-first={first || undefined}
            autoFocus={first}
            onPress={onPress}
          >
            {name}
          </Button>
        ))}
      </div>
    </Overlay>
  );
}
