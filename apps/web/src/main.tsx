import { StrictMode } from "react";
import { createRoot } from "react-dom/client";
import { App } from "./app.tsx";
import { boot } from "./state/boot.ts";
import { BenchProvider } from "./state/desk-context.tsx";
import "./styles/base.css";
import "./styles/layout.css";
import "./styles/drawing.css";
import "./styles/ledger.css";
import "./styles/forms.css";

const bench = await boot();
createRoot(document.getElementById("root") as HTMLElement).render(
  <StrictMode>
    <BenchProvider value={bench}>
      <App />
    </BenchProvider>
  </StrictMode>,
);
