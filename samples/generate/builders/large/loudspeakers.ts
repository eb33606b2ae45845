import type { Loudspeaker } from "../../../../src/model/index.ts";
import { subwoofer, surroundArray, threeWay } from "../loudspeakers.ts";
import type { LargeAuditorium } from "./description.ts";

/** Three screen loudspeakers, two subwoofers, four half side arrays, four half rear arrays. */
export function largeLoudspeakers({ distancesM, boxes }: LargeAuditorium): Loudspeaker[] {
  const [sideFront, sideRear] = distancesM.side;
  const [rearInner, rearOuter] = distancesM.rear;
  const side = (id: string, label: string, placement: Loudspeaker["placement"], distanceM: number) =>
    surroundArray({ id, label, placement, distanceM, boxes: boxes.side });
  const rear = (id: string, label: string, placement: Loudspeaker["placement"], distanceM: number) =>
    surroundArray({ id, label, placement, distanceM, boxes: boxes.rear });
  return [
    threeWay({ id: "left", label: "Screen left", placement: "screen-left", distanceM: distancesM.left }),
    threeWay({
      id: "center",
      label: "Screen center",
      placement: "screen-center",
      distanceM: distancesM.center,
    }),
    threeWay({ id: "right", label: "Screen right", placement: "screen-right", distanceM: distancesM.right }),
    subwoofer({
      id: "sub-1",
      label: "Sub left",
      placement: "subwoofer",
      distanceM: distancesM.subs[0],
      boxes: 2,
    }),
    subwoofer({
      id: "sub-2",
      label: "Sub right",
      placement: "subwoofer",
      distanceM: distancesM.subs[1],
      boxes: 2,
    }),
    side("lss-front", "Left side, front half", "surround-left-side", sideFront),
    side("lss-rear", "Left side, rear half", "surround-left-side", sideRear),
    side("rss-front", "Right side, front half", "surround-right-side", sideFront),
    side("rss-rear", "Right side, rear half", "surround-right-side", sideRear),
    rear("lrs-inner", "Left rear, inner half", "surround-left-rear", rearInner),
    rear("lrs-outer", "Left rear, outer half", "surround-left-rear", rearOuter),
    rear("rrs-inner", "Right rear, inner half", "surround-right-rear", rearInner),
    rear("rrs-outer", "Right rear, outer half", "surround-right-rear", rearOuter),
  ];
}
