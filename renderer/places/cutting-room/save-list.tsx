import { Button } from "react-aria-components";
import { toast } from "sonner";
import type { Kit } from "../../../core/cutting/kit.ts";
import { cutListFiles } from "../../../core/sheets/cut-list-csv.ts";
import { useDesk } from "../../desk.ts";
import { tell } from "../../parts/tell.ts";
import { words } from "../../words.ts";
import type { ListName } from "./kit-lists.ts";
import styles from "./tables.module.css";

/** The file of each list, as the command line names it. */
const files: Record<ListName, string> = {
  pieces: "cut-list.csv",
  strips: "strips.csv",
  sheets: "sheets.csv",
  totals: "totals.csv",
};

/** Saves the list that is open, whole and for the lot, as the command line writes it. */
export function SaveList(props: { readonly kit: Kit; readonly name: ListName; readonly ready: boolean }) {
  const { kit, name, ready } = props;
  const { host } = useDesk();
  const file = files[name];
  const save = () => {
    const bytes = cutListFiles(kit).get(file);
    if (bytes === undefined) throw new Error(`core/sheets writes no ${file}.`);
    host
      .export({ name: file, bytes, type: "text/csv" })
      .then((saved) => saved && toast.success(words.file.written(file)))
      .catch(tell);
  };
  return (
    <span title={words.cutting.saveHint}>
      <Button className={styles.go} isDisabled={!ready} onPress={save}>
        {words.cutting.save(file)}
      </Button>
    </span>
  );
}
