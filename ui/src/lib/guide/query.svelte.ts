/** What the guide is searched by. It stays as long as the app runs: back finds it again. */
class GuideQuery {
  text = $state('');
}

export const guideQuery = new GuideQuery();
