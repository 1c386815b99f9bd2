import { Component, type ReactNode } from "react";

interface Props {
  /** What stands behind the wall, as "The section". */
  readonly what: string;
  readonly children: ReactNode;
}

/** A fault of the program in one part of the page stays there and is said there; the rest goes on, and nothing is lost. */
export class FaultWall extends Component<Props, { readonly fault: string | null }> {
  override state = { fault: null };

  static getDerivedStateFromError(error: unknown) {
    return { fault: error instanceof Error ? error.message : String(error) };
  }

  override render(): ReactNode {
    if (this.state.fault === null) return this.props.children;
    return (
      <div className="fault" role="alert">
        <p>
          {this.props.what} cannot be shown: the program failed ({this.state.fault}). The plan is kept as it is.
        </p>
        <button type="button" onClick={() => this.setState({ fault: null })}>
          Try again
        </button>
      </div>
    );
  }
}
