import { leaveOut } from "../leave-out.ts";
import { outcomeOf, type Step } from "../step.ts";
import { place } from "../words.ts";

/** Network addresses go along: the new unit takes the place of the old one. */
export const network: Step = {
  name: "network",
  run: (context) => {
    const { next, to } = context;
    const inOrder = next.network.interfaces;
    const left = leaveOut(context, {
      questionId: "network/interfaces",
      place: place("network", "Network"),
      things: "network interfaces",
      max: to.operation.networkInterfacesMax,
      count: inOrder.length,
      candidates: [...inOrder].reverse().map((item) => ({
        id: item.id,
        label: item.label,
        loss: `nothing reaches the unit over it (${item.purpose}).`,
      })),
      reason: "the unit has fewer, and control matters most.",
    });
    const kept = inOrder.filter(({ id }) => !left.ids.has(id));
    return {
      next: {
        ...next,
        network: {
          ...next.network,
          interfaces: next.network.interfaces.filter(({ id }) => !left.ids.has(id)),
        },
      },
      items: [
        {
          outcome: "kept",
          place: place("network", "Network"),
          words: `Host name and ${kept.length} interfaces are kept. Never connect the old unit at the same time.`,
          claims: [
            "network/hostname",
            ...kept.flatMap(({ id }) =>
              ["id", "purpose", "mode", "address", "prefixLength", "gateway"].map(
                (name) => `network/interfaces/${id}/${name}`,
              ),
            ),
          ],
        },
        ...inOrder
          .filter(({ id }) => left.ids.has(id))
          .map((item) => ({
            outcome: outcomeOf(left.verdict!, "lost"),
            place: place(`network/interfaces/${item.id}`, `Network interface '${item.label}'`),
            words: `The unit has fewer interfaces: '${item.label}' is left out.`,
            claimsRest: [`network/interfaces/${item.id}`],
            questionId: left.verdict!.question.id,
          })),
      ],
      questions: left.verdict === undefined ? [] : [left.verdict.question],
    };
  },
};
