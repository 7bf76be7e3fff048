import { Component, type ReactNode } from "react";
import { words } from "../words.ts";

/** Where drawing the window itself fails: says so, instead of a blank page, and offers to load it again. */
export class Broken extends Component<{ readonly children: ReactNode }, { readonly why: string | null }> {
  override state = { why: null };

  static getDerivedStateFromError(error: unknown): { why: string } {
    return { why: error instanceof Error ? error.message : String(error) };
  }

  override render(): ReactNode {
    const { why } = this.state;
    if (why === null) return this.props.children;
    return (
      <div className="alone" role="alert">
        <p>{words.broken.what(why)}</p>
        <button type="button" onClick={() => location.reload()}>
          {words.broken.again}
        </button>
      </div>
    );
  }
}
