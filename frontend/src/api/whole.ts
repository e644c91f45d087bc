/** The answer with its body at hand; throws where the server goes away in the middle of it. */
export async function whole(answer: Response): Promise<Response> {
  if (!answer.body) return answer;
  const { status, statusText, headers } = answer;
  return new Response(await answer.arrayBuffer(), { status, statusText, headers });
}
