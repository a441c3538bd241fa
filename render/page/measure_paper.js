// measurePaper prints the page for taping alone.
function measurePaper(form) {
  "use strict";

  const { by, element } = form;
  const paper = element("section", { id: "measure-paper", className: "print" });
  paper.setAttribute("aria-hidden", "true");
  document.body.append(paper);
  by("print").addEventListener("click", () => {
    paper.replaceChildren(...[...by("sketch").children].map((svg) => svg.cloneNode(true)));
    document.body.classList.add("prints-measure");
    print();
    document.body.classList.remove("prints-measure");
  });
}
