import { Dialog, type DialogProps, Modal, ModalOverlay } from "react-aria-components";
import styles from "./overlay.module.css";

/**
 * A sheet over the window, to be answered or left. `onLeave`: it is open, and hears of Escape; without it what opened it closes it
 * too. `dismissable`: a press beside it leaves it as well.
 */
export function Overlay(props: {
  readonly children: DialogProps["children"];
  readonly onLeave?: () => void;
  readonly role?: "alertdialog";
  readonly dismissable?: boolean;
  readonly className?: string;
}) {
  const { children, onLeave, role = "dialog", dismissable = false, className = "" } = props;
  const opened = onLeave && { isOpen: true, onOpenChange: (open: boolean) => !open && onLeave() };
  return (
    <ModalOverlay className={styles.veil} isDismissable={dismissable} {...opened}>
      <Modal className={`${styles.sheet} ${className}`}>
        <Dialog className={styles.dialog} role={role}>
          {children}
        </Dialog>
      </Modal>
    </ModalOverlay>
  );
}
