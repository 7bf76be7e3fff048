import type { ReactNode } from "react";
import { Button, Tooltip, TooltipTrigger } from "react-aria-components";
import styles from "./icon-button.module.css";

/** A button with a drawing on it; its name shows on hover and is read out. */
export function IconButton(props: {
  readonly label: string;
  readonly onPress: () => void;
  readonly isDisabled?: boolean;
  readonly children: ReactNode;
}) {
  const { label, onPress, isDisabled = false, children } = props;
  return (
    <TooltipTrigger delay={500}>
      <Button className={styles.button} aria-label={label} onPress={onPress} isDisabled={isDisabled}>
        {children}
      </Button>
      <Tooltip className={styles.tip} offset={6}>
        {label}
      </Tooltip>
    </TooltipTrigger>
  );
}
