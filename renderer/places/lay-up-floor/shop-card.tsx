import type { ReactNode } from "react";
import { Button, Disclosure, DisclosurePanel, Heading } from "react-aria-components";
import { rules, shop } from "../../../core/project/layup-schema.ts";
import { useProject } from "../../desk.ts";
import { words } from "../../words.ts";
import card from "../drawing-office/card.module.css";
import { Figures } from "../drawing-office/figures/figures.tsx";

const shopPath = ["shop"];
const rulesPath = ["rules"];

/** How this shop lays up: the house rules and the shop's own figures. */
export function ShopCard() {
  const rulesNow = useProject((s) => s.project.rules);
  const shopNow = useProject((s) => s.project.shop);
  return (
    <>
      <Part name={words.floor.rules}>
        <Figures schema={rules} value={rulesNow} path={rulesPath} of={words.floor.ofRules} />
      </Part>
      <Part name={words.floor.shop}>
        <Figures schema={shop} value={shopNow} path={shopPath} of={words.floor.ofShop} />
      </Part>
    </>
  );
}

function Part({ name, children }: { readonly name: string; readonly children: ReactNode }) {
  return (
    <Disclosure className={card.section}>
      <Heading className={card.heading}>
        <Button slot="trigger" className={card.trigger}>
          <svg viewBox="0 0 10 10" aria-hidden="true">
            <path d="M3 1L7 5L3 9" />
          </svg>
          {name}
        </Button>
      </Heading>
      <DisclosurePanel className={card.panel}>{children}</DisclosurePanel>
    </Disclosure>
  );
}
