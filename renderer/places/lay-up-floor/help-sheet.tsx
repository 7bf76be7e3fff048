import { Button, Dialog, Heading, Modal, ModalOverlay } from "react-aria-components";
import question from "../../parts/question.module.css";
import { words } from "../../words.ts";
import styles from "./help-sheet.module.css";

/** The keys of the lay-up floor, on one sheet. */
export function HelpSheet({ onLeave }: { readonly onLeave: () => void }) {
  return (
    <ModalOverlay className={question.veil} isOpen isDismissable onOpenChange={(open) => !open && onLeave()}>
      <Modal className={`${question.sheet} ${styles.sheet}`}>
        <Dialog className={question.dialog}>
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
          <div className={question.answers}>
            <Button className={question.answer} data-first autoFocus onPress={onLeave}>
              {words.floor.help.close}
            </Button>
          </div>
        </Dialog>
      </Modal>
    </ModalOverlay>
  );
}
