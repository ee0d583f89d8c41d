// The form of a job.

import type { DutyStep, MaterialFamily } from "../checker/component/interfaces/layload-parts-checker.js";
import type { JobValues } from "../checker/protocol.js";
import { byId, make } from "../dom.js";
import {
  type ChoiceField,
  type Field,
  type FormKind,
  GROUPS,
  type NumberField,
  RUN_LENGTH,
  WANTED_LIFE,
  emptyJob,
} from "./fields.js";
import { settleLayers } from "./layers.js";

/** A number in the form that cannot be used. */
export class BadField extends Error {
  constructor(
    message: string,
    readonly element: HTMLElement,
  ) {
    super(message);
  }
}

const ALL: Field[] = [...GROUPS.flatMap((group) => group.fields), WANTED_LIFE, RUN_LENGTH];

/** Shows a job and reads it back. */
export class Form {
  /** What the fields do not show stays as it was loaded. */
  private held: JobValues = emptyJob();

  constructor(materials: MaterialFamily[], changed: () => void) {
    const family = ALL.find((field): field is ChoiceField => field.id === "material-name");
    family?.choices.push(...materials.map(({ name }): [string, string] => [name, name]));
    const host = byId("groups");
    for (const group of GROUPS) {
      const kind = group.of;
      const fields = group.fields.map((field) => row(field));
      if (group.id === "material") fields.push(make("p", { class: "hint wide", id: "material-words" }));
      const body = make("div", { class: "fields" }, ...fields);
      if (group.folded) {
        host.append(
          make("details", { class: "group", id: `group-${group.id}`, "data-of": kind }, make("summary", {}, group.title), body),
        );
      } else {
        host.append(make("fieldset", { class: "group", "data-of": kind }, make("legend", {}, group.title), body));
      }
    }
    byId("duty-fields").append(row(WANTED_LIFE), row(RUN_LENGTH));
    byId("add-step").addEventListener("click", () => {
      const last = this.steps().at(-1);
      this.addStep(last ?? { rpm: Number.NaN, throttle: 1, seconds: 60 });
      byId("steps").querySelector<HTMLElement>("tr:last-child input")?.focus();
      changed();
    });
    byId("job").addEventListener("input", (event) => {
      (event.target as HTMLElement).removeAttribute("aria-invalid");
      changed();
    });
    const words = () => {
      const found = materials.find(({ name }) => name === input("material-name").value);
      byId("material-words").textContent = found
        ? `${found.family}. Layers hold ${found.layerMpa} of ${found.beadMpa} MPa; softens near ${found.softeningC} °C.`
        : "";
    };
    input("material-name").addEventListener("input", words);
    this.words = words;
    this.chooseKind("rod");
    this.show(emptyJob());
  }

  private readonly words: () => void;

  /** Shows the fields of a kind of part; those of others keep what they say. */
  chooseKind(kind: FormKind) {
    for (const element of byId("job").querySelectorAll<HTMLElement>("[data-of]")) {
      element.hidden = element.dataset["of"] !== kind;
    }
    for (const field of ALL) {
      if (field.kind !== "choice" || !field.ofPiston) continue;
      const labels = new Map(kind === "piston" ? Object.entries(field.ofPiston) : field.choices);
      for (const option of (input(field.id) as HTMLSelectElement).options) {
        option.textContent = labels.get(option.value) ?? option.textContent;
      }
    }
  }

  /** Fills the form. */
  show(job: JobValues) {
    this.held = structuredClone(job);
    for (const field of ALL) {
      const element = input(field.id);
      element.removeAttribute("aria-invalid");
      if (field.kind === "number") {
        const value = field.get(job);
        element.value = value === undefined ? "" : String(value);
      } else if (field.kind === "text") {
        element.value = field.get(job);
      } else {
        choose(element as HTMLSelectElement, field.get(job));
      }
    }
    for (const { id, fields } of GROUPS.filter((group) => group.folded)) {
      // What a loaded job says is not hidden.
      if (fields.some((field) => input(field.id).value !== "")) byId<HTMLDetailsElement>(`group-${id}`).open = true;
    }
    byId("steps").replaceChildren();
    const steps = job.duty.steps;
    for (const step of steps.length ? steps : [{ rpm: Number.NaN, throttle: 1, seconds: 60 }]) this.addStep(step);
    this.words();
  }

  /** Chooses a build direction that has no name. */
  chooseDirection(value: string, label: string) {
    const select = input("print-direction") as HTMLSelectElement;
    choose(select, value, label);
    this.held.print = { ...this.held.print };
    select.dispatchEvent(new Event("input", { bubbles: true }));
  }

  /** The job in the form; the first number that cannot be used is named. */
  read(): JobValues {
    const job = structuredClone(this.held);
    for (const field of ALL) {
      if (field.kind === "number") field.set(job, numberIn(field));
      else field.set(job, input(field.id).value.trim());
    }
    job.duty.steps = this.steps();
    const lacking = settleLayers(job);
    if (lacking) throw bad(input(lacking.id), `${lacking.label} is needed for a layer on the crown`);
    return job;
  }

  private steps(): DutyStep[] {
    const rows = [...byId("steps").querySelectorAll("tr")];
    return rows.flatMap((row, index) => {
      const inputs = [...row.querySelectorAll("input")];
      if (inputs.length !== 3 || inputs[0]?.value.trim() === "") return [];
      const [rpm = 0, percent = 0, seconds = 0] = inputs.map((element) =>
        parsed(element, `step ${index + 1}: ${element.getAttribute("aria-label")}`),
      );
      return [{ rpm, throttle: percent / 100, seconds }];
    });
  }

  private addStep(step: DutyStep) {
    const number = byId("steps").children.length + 1;
    const cell = (label: string, value: number) =>
      make(
        "td",
        {},
        make("input", {
          type: "text",
          inputmode: "decimal",
          "aria-label": `${label}, step ${number}`,
          value: Number.isFinite(value) ? String(value) : "",
        }),
      );
    const remove = make("button", { type: "button", class: "quiet", "aria-label": `Remove step ${number}` }, "×");
    const percent = Math.round(step.throttle * 1e6) / 1e4;
    const row = make(
      "tr",
      {},
      cell("Speed in rpm", step.rpm),
      cell("Throttle in per cent", percent),
      cell("Seconds", step.seconds),
      make("td", {}, remove),
    );
    remove.addEventListener("click", () => {
      row.remove();
      byId("job").dispatchEvent(new Event("input", { bubbles: true }));
      byId("add-step").focus();
    });
    byId("steps").append(row);
  }
}

const input = (id: string) => byId<HTMLInputElement | HTMLSelectElement>(id);

function row(field: Field): HTMLElement {
  const hint = field.hint ? make("span", { class: "hint", id: `${field.id}-hint` }, field.hint) : null;
  const label = make("label", { for: field.id }, field.label);
  const described = hint ? `${field.id}-hint` : undefined;
  if (field.kind === "choice") {
    const options = field.choices.map(([value, text]) => make("option", { value }, text));
    const select = make("select", { id: field.id, "aria-describedby": described }, ...options);
    return make("div", { class: "field", "data-of": field.of }, label, select, hint);
  }
  const unit = field.kind === "number" && field.unit ? make("span", { class: "unit", id: `${field.id}-unit` }, field.unit) : null;
  const element = make("input", {
    id: field.id,
    type: "text",
    inputmode: field.kind === "number" ? "decimal" : undefined,
    autocomplete: "off",
    "aria-describedby": [unit?.id, described].filter(Boolean).join(" ") || undefined,
    placeholder: field.needed ? "needed" : (field.empty ?? "usual"),
  });
  return make("div", { class: "field", "data-of": field.of }, label, make("span", { class: "with-unit" }, element, unit), hint);
}

/** Chooses a value, adding it if the list does not have it. */
function choose(select: HTMLSelectElement, value: string, label?: string) {
  const known = [...select.options].find((option) => option.value === value);
  if (known) {
    if (label) known.textContent = label;
  } else {
    const own = value.split(",").map((part) => Number(part).toFixed(2));
    select.append(make("option", { value }, label ?? (own.length === 3 ? `direction ${own.join(", ")}` : value)));
  }
  select.value = value;
}

function numberIn(field: NumberField): number | undefined {
  const element = input(field.id);
  if (element.value.trim() === "") return undefined;
  const value = parsed(element, field.label);
  const { least, most } = field;
  if ((least !== undefined && value < least) || (most !== undefined && value > most) || (field.whole && value % 1)) {
    const range = most === undefined ? `${least} or more` : `${least} to ${most}`;
    throw bad(element, `${field.label} should be ${field.whole ? "a whole number, " : ""}${range}`);
  }
  return value;
}

/** Reads a number with a point or a comma. */
function parsed(element: HTMLInputElement | HTMLSelectElement, label: string): number {
  const value = Number(element.value.trim().replace(",", "."));
  if (element.value.trim() === "" || !Number.isFinite(value)) throw bad(element, `${label} is not a number`);
  return value;
}

function bad(element: HTMLElement, message: string): BadField {
  element.setAttribute("aria-invalid", "true");
  return new BadField(message, element);
}
