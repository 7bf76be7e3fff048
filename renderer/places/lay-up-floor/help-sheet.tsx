import { Button, Heading } from "react-aria-components";
import answers from "../../parts/answers.module.css";
import { Overlay } from "../../parts/overlay.tsx";
import { words } from "../../words.ts";
import styles from "./help-sheet.module.css";

/** The keys of the lay-up floor, on one sheet. */
export function HelpSheet({ onLeave }: { readonly onLeave: () => void }) {
  return (
    <Overlay className={styles.sheet} onLeave={onLeave} dismissable>
      <Heading slot="title">{words.floor.help.title}</Heading>
      <div className={styles.groups}>
        {words.floor.help.groups.map(({ title, keys }) => (
          <section key={title}>
            <h3>{title}</h3>
            <dl>
              {keys.map(([key, does]) => (
                <div key={`${key} ${does}`}>
                  <dt>{key}</dt>
                  <dd>{does}</dd>
                </div>
              ))}
            </dl>
          </section>
        ))}
      </div>
      <div className={answers.answers}>
        <Button className={answers.answer} data-first autoFocus onPress={onLeave}>
          {words.floor.help.close}
        </Button>
      </div>
    </Overlay>
  );
}
