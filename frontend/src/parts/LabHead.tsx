import { LAB_LEAVES, leaf, t, type LabLeaf } from "../state/bench";

/** The head of every page of the laboratory itself: the way back, its name, the other pages. */
export function LabHead({ title }: { title: LabLeaf }) {
  return (
    <header>
      <p><a href="#/">{t("back")}</a></p>
      <h1>{t(title)}</h1>
      <LabNav />
    </header>
  );
}

/** The pages of the laboratory itself. */
export function LabNav() {
  return (
    <nav aria-label={t("labPages")}>
      {LAB_LEAVES.map((one) => (
        <a key={one} href={`#//${one}`} aria-current={leaf.value === one ? "page" : undefined}>
          {t(one)}
        </a>
      ))}
    </nav>
  );
}
