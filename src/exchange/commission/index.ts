export { type BuildInput, type BuiltConfiguration, buildConfiguration } from "./build.ts";
export {
  type Answered,
  type Answers,
  nextQuestion,
  type Standing,
  withoutLastAnswer,
} from "./questions/conversation.ts";
export { type Answer, type Choice, problemOf, type Question, rangeWords } from "./questions/question.ts";
export { type ReadAnswer, readAnswer } from "./questions/read-answer.ts";
export type { Known } from "./questions/room-questions.ts";
